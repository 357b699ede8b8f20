package snick.faults;

import java.util.Optional;
import snick.frame.Form;

/** Fuzz target: text lines. */
public final class TextFuzz {
  private TextFuzz() {}

  /** One input. */
  public static void fuzzerTestOneInput(byte[] input) {
    boolean formKnown = input.length % 2 == 0;
    DecodedTwice.demand(formKnown ? Optional.of(Form.TEXT) : Optional.empty(), input);
  }
}
