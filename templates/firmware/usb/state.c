#include "state.h"

struct device device;
