package snick.frame.binary;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import java.util.OptionalInt;
import snick.frame.message.Counters;
import snick.frame.message.FrameSink;
import snick.frame.message.Wire;

/** The binary form: cuts the stream at delimiters, checks each frame, hands its message on. */
public final class FrameStream {
  private static final VarHandle WORDS =
      MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);

  private static final long LOW_BITS = 0x0101_0101_0101_0101L;
  private static final long HIGH_BITS = 0x8080_8080_8080_8080L;

  private final byte[] held = new byte[Wire.MAX_ENCODED_BYTES];
  private final byte[] plain = new byte[Wire.MAX_DECODED_BYTES];
  private final Counters counters;
  private final MessageReader messages;
  private final boolean leavesWhenTooLong;
  private int heldBytes;
  private boolean skipping;

  /**
   * A binary stream.
   *
   * @param leavesWhenTooLong stop at a frame that is too long, so that the caller may look for text
   */
  public FrameStream(Counters counters, boolean leavesWhenTooLong) {
    this.counters = counters;
    this.messages = new MessageReader(counters);
    this.leavesWhenTooLong = leavesWhenTooLong;
  }

  /** Take bytes up to {@code end}, or to the byte at which a frame became too long. */
  public int accept(byte[] bytes, int at, int end, FrameSink sink) {
    int from = at;
    while (from < end) {
      int delimiter = indexOfDelimiter(bytes, from, end);
      if (delimiter == end || heldBytes > 0 || skipping || tooLong(from, delimiter)) {
        int taken = hold(bytes, from, delimiter);
        if (taken < delimiter) {
          return taken;
        }
        if (delimiter == end) {
          return end;
        }
        finishHeld(sink);
      } else if (delimiter > from) {
        frame(bytes, from, delimiter - from, sink);
      }
      from = delimiter + 1;
    }
    return from;
  }

  /** Eight bytes a step: the lowest zero byte of a word is where a borrow first sets a top bit. */
  private static int indexOfDelimiter(byte[] bytes, int from, int end) {
    int at = from;
    for (; at + Long.BYTES <= end; at += Long.BYTES) {
      long word = (long) WORDS.get(bytes, at);
      long zeros = (word - LOW_BITS) & ~word & HIGH_BITS;
      if (zeros != 0) {
        return at + Long.numberOfTrailingZeros(zeros) / Byte.SIZE;
      }
    }
    while (at < end && bytes[at] != Wire.DELIMITER) {
      at++;
    }
    return at;
  }

  private int hold(byte[] bytes, int from, int end) {
    if (skipping) {
      counters.skippedBytes += end - from;
      return end;
    }
    int room = held.length - heldBytes;
    int taken = Math.min(room, end - from);
    System.arraycopy(bytes, from, held, heldBytes, taken);
    heldBytes += taken;
    if (from + taken == end) {
      return end;
    }
    counters.tooLong++;
    if (leavesWhenTooLong) {
      return from + taken;
    }
    counters.skippedBytes += heldBytes + end - from - taken;
    heldBytes = 0;
    skipping = true;
    return end;
  }

  private void finishHeld(FrameSink sink) {
    if (heldBytes > 0) {
      frame(held, 0, heldBytes, sink);
    }
    heldBytes = 0;
    skipping = false;
  }

  private static boolean tooLong(int from, int end) {
    return end - from > Wire.MAX_ENCODED_BYTES;
  }

  /** Whether the first bytes are a frame with a good CRC; counts nothing. */
  public boolean isIntact(byte[] bytes, int length) {
    int bodyEnd = Cobs.decode(bytes, 0, length, plain).orElse(0) - Wire.CRC_BYTES;
    return bodyEnd >= 1 && Crc16.of(plain, 0, bodyEnd) == Wire.u16(plain, bodyEnd);
  }

  /** Decode one frame, without its delimiter, of 1 to 255 bytes; true if a message came of it. */
  public boolean frame(byte[] bytes, int offset, int length, FrameSink sink) {
    OptionalInt decoded = Cobs.decode(bytes, offset, length, plain);
    int bodyEnd = decoded.orElse(0) - Wire.CRC_BYTES;
    if (bodyEnd < 1) {
      counters.malformed++;
      counters.skippedBytes += length;
      return false;
    }
    if (Crc16.of(plain, 0, bodyEnd) != Wire.u16(plain, bodyEnd)) {
      counters.badChecks++;
      counters.skippedBytes += length;
      return false;
    }
    return message(bodyEnd, length, sink);
  }

  private boolean message(int bodyEnd, int length, FrameSink sink) {
    switch (messages.read(plain, bodyEnd, sink)) {
      case HANDED_ON -> {
        counters.goodFrames++;
        return true;
      }
      case UNKNOWN_TYPE -> counters.unknownTypes++;
      case MALFORMED -> counters.malformed++;
    }
    counters.skippedBytes += length;
    return false;
  }

  /** Give up a frame that became too long: copy what is held of it, and forget it. */
  public int takeHeld(byte[] to) {
    System.arraycopy(held, 0, to, 0, heldBytes);
    int taken = heldBytes;
    heldBytes = 0;
    return taken;
  }

  /** Forget a frame begun. */
  public void forget() {
    counters.skippedBytes += heldBytes;
    heldBytes = 0;
    skipping = false;
  }
}
