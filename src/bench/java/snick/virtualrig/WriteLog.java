package snick.virtualrig;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import snick.virtualrig.line.Sent;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.settings.TextForm;

/**
 * Writes what the virtual rig sends in many hours, a cut every so often. Prints the number of
 * samples and of cuts. Arguments: a file, {@code text} or {@code binary}, seconds from cut to cut,
 * number of cuts.
 */
final class WriteLog {
  private WriteLog() {}

  public static void main(String[] args) throws IOException {
    RigSettings usual = RigSettings.USUAL;
    RigSettings settings =
        args[1].equals("text")
            ? usual.with(usual.device().withText(new TextForm(true, false, 0, false)))
            : usual;
    Script script = LongScript.cuts(Double.parseDouble(args[2]), Integer.parseInt(args[3]));
    int[] cuts = new int[1];
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(Path.of(args[0])))) {
      Sent sent =
          new VirtualRig(settings, 1)
              .render(
                  script, (nanos, bytes, length) -> put(out, bytes, length), truth -> cuts[0]++);
      System.out.println(sent.samples() + " " + cuts[0]);
    }
  }

  private static void put(OutputStream out, byte[] bytes, int length) {
    try {
      out.write(bytes, 0, length);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
