package snick.virtualrig.device;

import java.nio.charset.StandardCharsets;
import java.util.Locale;
import snick.virtualrig.settings.ConverterSettings;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.settings.TextForm;

/** A simple sketch that prints one line for each reading and does not listen. Pure. */
public final class SketchTwin implements Firmware {
  private static final int LONGEST_LINE_BYTES = 128;
  private static final long ANNOUNCEMENT_NANOS = 120_000_000_000L;
  private static final char[] HEX = "0123456789ABCDEF".toCharArray();

  private final RigSettings rig;
  private final TextForm form;
  private final MicrosecondCounter clock;
  private final Uart uart;
  private final byte[] line = new byte[LONGEST_LINE_BYTES];
  private final long scale;
  private int length;
  private DeviceIdentity identity;
  private long nextAnnouncementNanos;

  public SketchTwin(
      RigSettings rig,
      DeviceIdentity identity,
      TextForm form,
      MicrosecondCounter clock,
      Uart uart) {
    this.rig = rig;
    this.identity = identity;
    this.form = form;
    this.clock = clock;
    this.uart = uart;
    long powerOfTen = 1;
    for (int i = 0; i < form.decimals(); i++) {
      powerOfTen *= 10;
    }
    this.scale = powerOfTen;
  }

  @Override
  public void start(DeviceIdentity now, long nanos) {
    identity = now;
    announce();
    nextAnnouncementNanos = nanos + ANNOUNCEMENT_NANOS;
  }

  /** Again and again, for the host may have come in later. */
  private void announce() {
    print("# a sketch that prints its readings");
    print("# firmware=" + rig.device().firmware());
    print(String.format(Locale.ROOT, "# device=%016x", identity.deviceId()));
    print(String.format(Locale.ROOT, "# rate=%.3f", rig.converter().rate().hertz()));
    print("# gain=" + rig.converter().gain());
    if (form.decimals() > 0) {
      print("# unit=gf");
    }
  }

  private void print(String text) {
    byte[] bytes = text.getBytes(StandardCharsets.US_ASCII);
    System.arraycopy(bytes, 0, line, 0, bytes.length);
    length = bytes.length;
    send(0);
  }

  private void send(int samples) {
    if (form.carriageReturn()) {
      line[length++] = '\r';
    }
    line[length++] = '\n';
    uart.send(line, length, samples);
  }

  @Override
  public void converted(int counts, long nanos) {
    if (nanos >= nextAnnouncementNanos) {
      nextAnnouncementNanos += ANNOUNCEMENT_NANOS;
      announce();
    }
    length = 0;
    if (form.withMicros()) {
      digits(clock.micros(nanos), 1);
      line[length++] = ',';
    }
    reading(counts);
    if (form.withChecksum()) {
      checksum();
    }
    send(1);
  }

  private void reading(int counts) {
    long shown = form.decimals() == 0 ? counts : Math.round(gramForce(counts) * scale);
    if (shown < 0) {
      line[length++] = '-';
    }
    long size = Math.abs(shown);
    digits(size / scale, 1);
    if (form.decimals() > 0) {
      line[length++] = '.';
      digits(size % scale, form.decimals());
    }
  }

  private double gramForce(int counts) {
    ConverterSettings converter = rig.converter();
    double atReference = counts * (double) ConverterSettings.REFERENCE_GAIN / converter.gain();
    return (atReference - converter.zeroCounts()) / converter.countsPerGramForce();
  }

  private void digits(long number, int least) {
    int count = Math.max(least, digitsOf(number));
    long rest = number;
    for (int i = count - 1; i >= 0; i--) {
      line[length + i] = (byte) ('0' + rest % 10);
      rest /= 10;
    }
    length += count;
  }

  private static int digitsOf(long number) {
    int digits = 1;
    for (long rest = number / 10; rest > 0; rest /= 10) {
      digits++;
    }
    return digits;
  }

  /** Exclusive or of all bytes before the star, as in NMEA 0183. */
  private void checksum() {
    int check = 0;
    for (int i = 0; i < length; i++) {
      check ^= line[i];
    }
    line[length++] = '*';
    line[length++] = (byte) HEX[check >> 4 & 0xF];
    line[length++] = (byte) HEX[check & 0xF];
  }

  @Override
  public void missed(long nanos) {
    // A sketch that waits for a reading prints nothing meanwhile.
  }

  @Override
  public long leftOut() {
    return 0;
  }

  @Override
  public void received(byte[] bytes, int received, long nanos) {
    // A sketch that only prints reads nothing.
  }

  @Override
  public int breakOff(byte[] to) {
    return 0;
  }
}
