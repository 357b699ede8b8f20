package snick.cli.terminal;

/** Exit status of every command; documented in {@code snick --help}. */
public final class ExitCode {
  /** Done. */
  public static final int OK = 0;

  /** Failed: the message says what, where and what to do next. */
  public static final int FAILED = 1;

  /** The command line was wrong. */
  public static final int USAGE = 2;

  /** Done, and the answer is no: a check did not pass. */
  public static final int NOT_PASSED = 3;

  /**
   * Input is not what it should be: file, line and value are named. Also: a file that was to be
   * made is there already.
   */
  public static final int BAD_INPUT = 4;

  /** The rig, port or store is in use by another process, or not there. */
  public static final int UNAVAILABLE = 5;

  private ExitCode() {}
}
