#include <Snick.h>

snick::TwoWireConverter converter(2, 3, two_wire_at_80);  // data, clock; how the rate pin is tied
snick::TextLines lines(converter, Serial);

void setup() {
  Serial.begin(115200);
  lines.begin();
}
void loop() { lines.poll(); }
