package snick.faults;

import java.util.Optional;
import snick.frame.Form;

/** Fuzz target: binary streams, garbage and good frames of a hostile device mixed. */
public final class FramesFuzz {
  private FramesFuzz() {}

  /** One input. */
  public static void fuzzerTestOneInput(byte[] input) {
    byte[] bytes = HostileDevice.sends(input);
    DecodedTwice.demand(Optional.of(Form.BINARY), bytes);
    DecodedTwice.demand(Optional.empty(), bytes);
  }
}
