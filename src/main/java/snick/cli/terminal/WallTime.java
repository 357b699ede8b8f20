package snick.cli.terminal;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Times as the clock on the wall shows them, for people; JSON and files have UTC. */
public final class WallTime {
  private static final DateTimeFormatter SECOND =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss", Locale.ROOT);
  private static final int DATE_LENGTH = 10;

  private WallTime() {}

  /** Date and time in the zone of this computer, to the second. */
  public static String of(Instant at) {
    return SECOND.format(at.atZone(ZoneId.systemDefault()));
  }

  /** The date alone. */
  public static String day(Instant at) {
    return of(at).substring(0, DATE_LENGTH);
  }

  /** Date and time to the minute. */
  public static String minute(Instant at) {
    return of(at).substring(0, DATE_LENGTH + " HH:mm".length());
  }
}
