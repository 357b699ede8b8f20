package snick.report.plot;

import java.awt.Color;

/**
 * How every chart looks: dark on white, thin lines, colours that the colour-blind tell apart (the
 * palette of Okabe and Ito, from memory) and never colour alone: markers and dashes differ too.
 */
final class Look {
  static final Color INK = new Color(0x22, 0x22, 0x22);
  static final Color BLUE = new Color(0x00, 0x72, 0xB2);
  static final Color VERMILION = new Color(0xD5, 0x5E, 0x00);
  static final Color GREEN = new Color(0x00, 0x9E, 0x73);
  static final Color PURPLE = new Color(0xCC, 0x79, 0xA7);

  private Look() {}
}
