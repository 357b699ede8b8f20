package snick.daemon;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.concurrent.TimeUnit;
import snick.phrase.Phrase;
import snick.port.ByteLink;
import snick.port.LinkLostException;
import snick.virtualrig.Fault;
import snick.virtualrig.Rendering;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;

/** A virtual rig on a cable that tests pull, in time that they move. One thread. */
public final class HandRig implements ByteLink {
  private static final long READ_NANOS = TimeUnit.MILLISECONDS.toNanos(100);
  private static final int CONVERSIONS_A_READ = 8;

  private final HandTime time;
  private final ByteArrayOutputStream line = new ByteArrayOutputStream();
  private final Rendering rig;
  private long arrivalNanos;
  private long rigNanos;

  /** What comes out of the cable. */
  private State state = State.SENDING;

  /** How often the rig was asked something. */
  public int requests;

  /** How often the cable was let go of by its reader. */
  public int closed;

  /** What comes out of the cable. */
  public enum State {
    SENDING,
    SILENT,
    NOISE,
    /** Lines of one number, eight in each read. */
    TEXT,
    UNPLUGGED
  }

  public HandRig(HandTime time, RigSettings settings) {
    this.time = time;
    this.rig =
        new Rendering(
            new VirtualRig(settings, 1),
            (nanos, bytes, length) -> line.write(bytes, 0, length),
            cut -> {});
  }

  public void become(State now) {
    state = now;
  }

  boolean plugged() {
    return state != State.UNPLUGGED;
  }

  void goWrong(Fault fault) {
    rig.inject(fault);
  }

  /** Plays {@code script} in one go. */
  void play(Script script) {
    rig.play(script);
  }

  @Override
  public int read(byte[] buffer) throws IOException {
    if (state != State.SENDING || line.size() == 0) {
      await();
    }
    if (state == State.UNPLUGGED) {
      throw new LinkLostException(Phrase.of("fault.said", "what", "the cable is out"));
    }
    arrivalNanos = time.monotonicNanos();
    return switch (state) {
      case SENDING -> take(buffer);
      case NOISE -> put(buffer, "~~~ not a reading ~~~\n");
      case TEXT -> put(buffer, "84210\r\n84213\r\n".repeat(CONVERSIONS_A_READ / 2));
      case SILENT, UNPLUGGED -> 0;
    };
  }

  private void await() {
    if (state == State.SENDING) {
      rig.play(CONVERSIONS_A_READ);
      long now = rig.sent().trueNanos();
      time.pass(Math.max(0, now - rigNanos));
      rigNanos = now;
    } else {
      time.pass(READ_NANOS);
    }
  }

  private int take(byte[] buffer) {
    byte[] all = line.toByteArray();
    int count = Math.min(all.length, buffer.length);
    System.arraycopy(all, 0, buffer, 0, count);
    line.reset();
    line.writeBytes(Arrays.copyOfRange(all, count, all.length));
    return count;
  }

  private static int put(byte[] buffer, String lines) {
    byte[] text = lines.getBytes(StandardCharsets.US_ASCII);
    System.arraycopy(text, 0, buffer, 0, text.length);
    return text.length;
  }

  @Override
  public void write(byte[] bytes) {
    requests++;
    rig.receive(bytes);
  }

  @Override
  public boolean ended() {
    return false;
  }

  @Override
  public long arrivalNanos() {
    return arrivalNanos;
  }

  @Override
  public void close() {
    closed++;
  }
}
