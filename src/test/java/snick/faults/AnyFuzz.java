package snick.faults;

/** All fuzz targets as one: the first byte of an input says which it is for. */
public final class AnyFuzz {
  private AnyFuzz() {}

  /** One input. */
  public static void fuzzerTestOneInput(byte[] input) throws Exception {
    FuzzInput from = new FuzzInput(input);
    FuzzTarget target = from.one(FuzzTarget.ALL);
    target.trial().of(from.take(target.mostBytes()));
  }
}
