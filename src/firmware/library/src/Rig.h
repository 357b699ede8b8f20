// The binary form of the protocol over any Stream.
#pragma once

#include <Arduino.h>

#include "Converter.h"
#include "core/device.h"
#include "core/inbox.h"

namespace snick {

class Rig {
 public:
  // The line must have begun. The id is 64 bits that no other device has and that stay the same.
  // The firmware's name and version have 32 bytes at most; what is longer is cut off.
  Rig(Converter &converter, Stream &line, uint64_t id, const char *firmware);

  // Powers the converter up with the rate of this index in its model, says hello and streams.
  void begin(uint8_t rate = 0, wire_reset_cause cause = WIRE_RESET_UNKNOWN);

  // All that is to do; never waits. Call it from loop(), at least every 10 ms, and in each period
  // of the converter at least once: a conversion that is overwritten is lost, and counted.
  void poll();

 private:
  void hear_converter();
  void hear_host();
  void send();
  void send_up_to(size_t room);

  Converter &converter_;
  Stream &line_;
  uint8_t id_[8];
  char firmware_[WIRE_MAX_FIRMWARE_BYTES + 1];
  device device_;
  inbox inbox_;
  bool tells_room_ = false;
};

}  // namespace snick
