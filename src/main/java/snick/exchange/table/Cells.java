package snick.exchange.table;

import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import java.util.Arrays;

/** The cells of one row, without a text object for each; filled anew by each row that is read. */
final class Cells extends AbstractBaseCsvCallbackHandler<Cells> {
  private final int[] ends;
  private char[] text = new char[256];
  private int used;
  private int count;

  /** Room for the cells of a row; more are counted only. */
  Cells(int most) {
    ends = new int[most];
  }

  @Override
  protected void handleBegin(long startingLineNumber) {
    used = 0;
    count = 0;
  }

  @Override
  protected void handleField(int index, char[] buffer, int offset, int length, boolean quoted) {
    if (count < ends.length) {
      if (used + length > text.length) {
        text = Arrays.copyOf(text, 2 * (used + length));
      }
      System.arraycopy(buffer, offset, text, used, length);
      used += length;
      ends[count] = used;
    }
    count++;
  }

  @Override
  protected Cells buildRecord() {
    return this;
  }

  int count() {
    return count;
  }

  /** Characters of every cell, one after the other. */
  char[] text() {
    return text;
  }

  int start(int cell) {
    return cell == 0 ? 0 : ends[cell - 1];
  }

  int end(int cell) {
    return ends[cell];
  }

  int length(int cell) {
    return end(cell) - start(cell);
  }

  String word(int cell) {
    return new String(text, start(cell), length(cell));
  }
}
