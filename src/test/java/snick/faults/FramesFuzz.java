package snick.faults;

import java.util.Optional;
import snick.frame.Form;

/** Fuzz target: binary streams, garbage and good frames of a hostile device mixed. */
public final class FramesFuzz {
  private FramesFuzz() {}

  /** One input. */
  public static void fuzzerTestOneInput(byte[] input) {
    byte[] bytes = HostileDevice.sends(input);
    boolean formKnown = input.length % 2 == 0;
    DecodedTwice.demand(formKnown ? Optional.of(Form.BINARY) : Optional.empty(), bytes);
  }
}
