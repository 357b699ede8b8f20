package snick.cli.terminal;

import snick.cut.Trace;

/** A trace in one line of a terminal: each character the largest load of its stretch. */
public final class Sparkline {
  private static final String BLOCKS = " ▁▂▃▄▅▆▇█";

  private Sparkline() {}

  /**
   * Draws {@code trace} in {@code columns} characters.
   *
   * @param polarity +1 if load raises the reading, −1 if it lowers it
   */
  public static String of(Trace trace, int polarity, int columns) {
    if (trace.size() == 0) {
      return "";
    }
    int width = Math.min(columns, trace.size());
    int[] tops = new int[width];
    int lowest = Integer.MAX_VALUE;
    int highest = Integer.MIN_VALUE;
    for (int column = 0; column < width; column++) {
      tops[column] = top(trace, polarity, column, width);
      lowest = Math.min(lowest, tops[column]);
      highest = Math.max(highest, tops[column]);
    }
    StringBuilder line = new StringBuilder(width);
    for (int top : tops) {
      line.append(block(top, lowest, highest));
    }
    return line.toString();
  }

  private static int top(Trace trace, int polarity, int column, int width) {
    int from = (int) ((long) column * trace.size() / width);
    int to = (int) ((column + 1L) * trace.size() / width);
    int top = Integer.MIN_VALUE;
    for (int i = from; i < to; i++) {
      top = Math.max(top, polarity * trace.counts(i));
    }
    return top;
  }

  private static char block(int value, int lowest, int highest) {
    if (highest == lowest) {
      return BLOCKS.charAt(1);
    }
    double share = ((double) value - lowest) / ((double) highest - lowest);
    return BLOCKS.charAt((int) Math.round(share * (BLOCKS.length() - 1)));
  }
}
