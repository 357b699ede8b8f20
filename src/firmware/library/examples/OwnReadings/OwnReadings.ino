// The converter is read by what the sketch already has; Snick's library only speaks the protocol.
#include <Snick.h>

snick::OwnReadings readings(100000);  // converts 100 times a second
snick::Rig rig(readings, Serial, 0x5eed000000000001, "own readings 1.0");  // an id of your own

// Put your own converter here. This one measures nothing: an analog pin, for the example.
bool conversionReady() {
  static uint32_t due = 0;
  bool ready = static_cast<int32_t>(micros() - due) >= 0;
  due += ready ? 10000 : 0;
  return ready;
}
int32_t readCounts() { return analogRead(A0); }

void setup() {
  Serial.begin(115200);
  rig.begin();
}

void loop() {
  if (conversionReady()) {
    uint32_t ready = micros();  // before reading: the moment of data-ready
    readings.put(readCounts(), ready);
  }
  rig.poll();
}
