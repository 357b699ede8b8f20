// The core as a C++ sketch sees it: every header is C++, and what it declares links with the C core.
#include "batch.h"
#include "command.h"
#include "crc16.h"
#include "device.h"
#include "inbox.h"
#include "message.h"
#include "outbox.h"
#include "wire.h"

namespace {

const uint32_t RATES_MHZ[] = {80000};
const uint16_t GAINS[] = {128};
const converter_model MODEL = {RATES_MHZ, GAINS, 1, 1, 24, 4, 2500000000u};
const uint8_t ID[8] = {1};
device rig;
inbox commands;

}  // namespace

int main() {
  rig.model = &MODEL;
  rig.id = ID;
  rig.firmware = "sketch";
  device_start(&rig, WIRE_RESET_POWER_ON, 0, 0);
  inbox_byte(&commands, 0, 0);
  uint8_t first = 1;
  bool delimiter = outbox_take(&rig.outbox, &first) && first == 0;
  return delimiter && crc16_of(reinterpret_cast<const uint8_t *>("123456789"), 9) == 0x29B1 ? 0 : 1;
}
