// A converter on I2C, data-ready on a pin with an interrupt, 320 samples a second: they show how the
// fixture rings. Compare the registers in I2cConverter.cpp with the data sheet of your part.
#include <Snick.h>

snick::I2cConverter converter(2);  // data-ready
snick::Rig rig(converter, Serial, 0x5eed000000000002, "i2c converter 1.0");

void setup() {
  Serial.begin(115200);
  Wire.begin();
  Wire.setClock(400000);
  rig.begin(4);  // of 10, 20, 40, 80, 320
}

void loop() { rig.poll(); }
