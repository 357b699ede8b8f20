package snick.cli;

/** Exit status of every command; documented in {@code snick --help}. */
final class ExitCode {
  /** Done. */
  static final int OK = 0;

  /** Failed: the message says what, where and what to do next. */
  static final int FAILED = 1;

  /** The command line was wrong. */
  static final int USAGE = 2;

  /** Done, and the answer is no: a check did not pass. */
  static final int NOT_PASSED = 3;

  /** Input is not what it should be: file, line and value are named. */
  static final int BAD_INPUT = 4;

  /** The rig, port or store is in use by another process, or not there. */
  static final int UNAVAILABLE = 5;

  private ExitCode() {}
}
