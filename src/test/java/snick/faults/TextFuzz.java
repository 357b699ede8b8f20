package snick.faults;

import java.util.Optional;
import snick.frame.Form;

/** Fuzz target: text lines. */
public final class TextFuzz {
  private TextFuzz() {}

  /** One input. */
  public static void fuzzerTestOneInput(byte[] input) {
    DecodedTwice.demand(Optional.of(Form.TEXT), input);
    DecodedTwice.demand(Optional.empty(), input);
  }
}
