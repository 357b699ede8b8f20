package snick.virtualrig;

import java.util.Random;

/** The wire between device and host, with its faults. Pure; times true, ns. */
final class FaultyLine {
  private final Random random;
  private double bitErrorProbability;
  private double lostByteProbability;
  private long silentUntilNanos;
  private long babblingUntilNanos;
  private byte[] arrived = new byte[256];

  FaultyLine(Random random) {
    this.random = random;
  }

  /** Begin a fault. */
  void goWrong(Fault.OfLine fault, long nanos) {
    if (fault instanceof Fault.BitErrors errors) {
      bitErrorProbability = errors.probability();
    } else if (fault instanceof Fault.LostBytes lost) {
      lostByteProbability = lost.probability();
    } else if (fault instanceof Fault.Silence silence) {
      silentUntilNanos = nanos + inNanos(silence.seconds());
    } else if (fault instanceof Fault.Babble babble) {
      babblingUntilNanos = nanos + inNanos(babble.seconds());
    } else if (fault instanceof Fault.HangUp hangUp) {
      silentUntilNanos = nanos + inNanos(hangUp.seconds());
    }
  }

  static long inNanos(double seconds) {
    return Math.round(seconds * 1e9);
  }

  /** Whether nothing gets through now. */
  boolean silent(long nanos) {
    return nanos < silentUntilNanos;
  }

  private boolean sound(long nanos) {
    return bitErrorProbability == 0 && lostByteProbability == 0 && nanos >= babblingUntilNanos;
  }

  /** Send bytes; returns how many arrive, see {@link #arrived}. */
  int carry(byte[] bytes, int length, long nanos) {
    if (silent(nanos)) {
      return 0;
    }
    if (arrived.length < length) {
      arrived = new byte[length];
    }
    if (sound(nanos)) {
      System.arraycopy(bytes, 0, arrived, 0, length);
      return length;
    }
    return spoil(bytes, length, nanos < babblingUntilNanos);
  }

  /** What the last call of {@link #carry} let through, from index 0; used again by the next. */
  byte[] arrived() {
    return arrived;
  }

  private int spoil(byte[] bytes, int length, boolean babbling) {
    int kept = 0;
    for (int i = 0; i < length; i++) {
      if (lostByteProbability == 0 || random.nextDouble() >= lostByteProbability) {
        int from = babbling ? random.nextInt(256) : bytes[i];
        arrived[kept++] = (byte) (from ^ errors());
      }
    }
    return kept;
  }

  private int errors() {
    int errors = 0;
    for (int bit = 1; bitErrorProbability > 0 && bit <= 0x80; bit <<= 1) {
      if (random.nextDouble() < bitErrorProbability) {
        errors |= bit;
      }
    }
    return errors;
  }
}
