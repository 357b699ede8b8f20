package snick.daemon;

import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;

/** Prints readings as sketches do. */
final class SketchLines {
  private static final double COUNTS_PER_GRAM = 437.25;
  private static final double NEWTONS_PER_GRAM_FORCE = 9.80665e-3;
  private static final int ZERO = 84_200;
  private static final Instant BEGIN = Instant.parse("2025-11-02T23:59:55.25Z");

  private SketchLines() {}

  static String print(List<long[]> readings, String form, String heading) {
    StringBuilder text = new StringBuilder(heading);
    String end = form.endsWith("\r") ? "" : "\n";
    for (int i = 0; i < readings.size(); i++) {
      text.append(line(form, i, readings.get(i)[0], readings.get(i)[1])).append(end);
    }
    return text.toString();
  }

  private static String line(String form, int index, long micros, long raw) {
    double grams = (raw - ZERO) / COUNTS_PER_GRAM;
    Instant at = BEGIN.plus(micros, ChronoUnit.MICROS);
    String seconds = fixed("%.4f", micros / 1e6);
    return form.replace("{us}", Long.toString(micros))
        .replace("{ms}", Long.toString(micros / 1000))
        .replace("{s}", seconds)
        .replace("{s,}", seconds.replace('.', ','))
        .replace("{iso}", at.truncatedTo(ChronoUnit.MILLIS).toString())
        .replace("{date}", at.toString().substring(0, 10))
        .replace("{clock}", fixedClock(at))
        .replace("{line}", Integer.toString(index + 1))
        .replace("{raw}", Long.toString(raw))
        .replace("{-raw}", Long.toString(-raw))
        .replace("{raw/2}", Long.toString(raw / 2))
        .replace("{offset}", Long.toString(raw + (1 << 23)))
        .replace("{unsigned}", Long.toString((raw - 100_000) & 0xFFFFFF))
        .replace("{hex}", String.format(Locale.ROOT, "%06X", (raw - 100_000) & 0xFFFFFF))
        .replace("{g}", fixed("%.2f", grams))
        .replace("{g,}", fixed("%.2f", grams).replace('.', ','))
        .replace("{+g,}", fixed("%.2f", grams + 300).replace('.', ','))
        .replace("{kg}", fixed("%.5f", grams / 1000))
        .replace("{N}", fixed("%.4f", grams * NEWTONS_PER_GRAM_FORCE))
        .replace("{mN}", fixed("%.1f", grams * NEWTONS_PER_GRAM_FORCE * 1000));
  }

  private static String fixedClock(Instant at) {
    return LocalTime.ofInstant(at, ZoneOffset.UTC)
        .format(DateTimeFormatter.ofPattern("HH:mm:ss.SSS"));
  }

  private static String fixed(String format, Object value) {
    return String.format(Locale.ROOT, format, value);
  }

  /** What the reading of a form is for each count. */
  static double unitsPerCount(String form) {
    if (form.contains("raw}")
        || form.contains("{offset}")
        || form.contains("{unsigned}")
        || form.contains("{hex}")) {
      return 1;
    }
    double newtons = NEWTONS_PER_GRAM_FORCE / COUNTS_PER_GRAM;
    return form.contains("{kg}")
        ? 1e-3 / COUNTS_PER_GRAM
        : form.contains("{N}")
            ? newtons
            : form.contains("{mN}") ? 1000 * newtons : 1 / COUNTS_PER_GRAM;
  }
}
