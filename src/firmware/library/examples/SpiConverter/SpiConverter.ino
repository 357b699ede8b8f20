// A converter on SPI, data-ready on a pin with an interrupt, 1,000 samples a second: they show how
// the fixture rings. Compare the registers in SpiConverter.cpp with the data sheet of your part.
#include <Snick.h>

snick::SpiConverter converter(10, 2);  // select, data-ready
snick::Rig rig(converter, Serial, 0x5eed000000000003, "spi converter 1.0");

void setup() {
  Serial.begin(115200);
  SPI.begin();
  rig.begin(6);  // of 20, 45, 90, 175, 330, 600, 1000
}

void loop() { rig.poll(); }
