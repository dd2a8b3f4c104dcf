#include "answer.h"

struct answer answer;

bool answer_packet(uint8_t length)
{
    answer.length = length;
    answer.in_flash = false;
    return true;
}

bool answer_byte(uint8_t value)
{
    answer.packet[0] = value;
    return answer_packet(1);
}

bool answer_flash(FLASH const uint8_t *bytes, uint8_t length)
{
    answer.length = length;
    answer.in_flash = true;
    answer.bytes = bytes;
    return true;
}
