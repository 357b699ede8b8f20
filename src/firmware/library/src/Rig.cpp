#include "Rig.h"

#include <string.h>

namespace snick {

namespace {
constexpr uint8_t CHUNK_BYTES = 32;
}

Rig::Rig(Converter &converter, Stream &line, uint64_t id, const char *firmware)
    : converter_(converter), line_(line), device_(), inbox_() {
  for (uint8_t &byte : id_) {
    byte = static_cast<uint8_t>(id);
    id >>= 8;
  }
  strncpy(firmware_, firmware, WIRE_MAX_FIRMWARE_BYTES);
  firmware_[WIRE_MAX_FIRMWARE_BYTES] = 0;
  device_.id = id_;
  device_.firmware = firmware_;
}

void Rig::begin(uint8_t rate, wire_reset_cause cause) {
  device_.model = &converter_.model();
  converter_.begin(rate, 0);
  device_start(&device_, cause, rate, micros());
}

void Rig::poll() {
  hear_converter();
  hear_host();
  if (device_tick(&device_, micros())) {
    converter_.begin(device_.rate, device_.gain);
  }
  send();
}

void Rig::hear_converter() {
  uint32_t code = 0, ready_us = 0;
  for (converter_news news = converter_.look(code, ready_us); news != CONVERTER_NOTHING;
       news = converter_.look(code, ready_us)) {
    if (news == CONVERTER_CODE) {
      device_converted(&device_, code, ready_us);
      send();
    } else {
      device_missed(&device_);
    }
  }
}

void Rig::hear_host() {
  while (line_.available() > 0 && !inbox_is_full(&inbox_)) {
    inbox_byte(&inbox_, static_cast<uint8_t>(line_.read()), micros());
  }
  const inbox_frame *frame = inbox_oldest(&inbox_);
  if (frame && outbox_room(&device_.outbox) >= DEVICE_REPLY_BYTES) {
    device_received(&device_, frame, micros());
    inbox_drop_oldest(&inbox_);
    converter_.choose(device_.rate, device_.gain);
  }
}

// A line that never told of any room does not tell at all, and is simply written to.
void Rig::send() {
  int room = line_.availableForWrite();
  tells_room_ = tells_room_ || room > 0;
  if (!tells_room_) {
    send_up_to(OUTBOX_BYTES);
    return;
  }
  while (room > 0 && !outbox_is_empty(&device_.outbox)) {
    send_up_to(static_cast<size_t>(room));
    room = line_.availableForWrite();
  }
}

void Rig::send_up_to(size_t room) {
  uint8_t bytes[CHUNK_BYTES];
  size_t n;
  do {
    for (n = 0; n < CHUNK_BYTES && n < room && outbox_take(&device_.outbox, bytes + n); n++) {
    }
    line_.write(bytes, n);
    room -= n;
  } while (n == CHUNK_BYTES && room > 0);
}

}  // namespace snick
