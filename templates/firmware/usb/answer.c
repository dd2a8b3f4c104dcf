#include "answer.h"

struct answer answer;

bool answer_packet(uint8_t length)
{
    answer.constant = IN_PACKET;
    answer.length = length;
    return true;
}

bool answer_byte(uint8_t value)
{
    answer.packet[0] = value;
    return answer_packet(1);
}

bool answer_constant(uint8_t number)
{
    answer.constant = number;
    return true;
}
