package snick.daemon;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/**
 * A row of the table of forms in firmware-protocol.md.
 *
 * @param typed heading and line as the document has them
 * @param heading line before the readings; empty for none
 * @param form a line, with what is put in in braces
 * @param asked whether it must be said what the columns are
 * @param outcome the columns
 */
record FormRow(String typed, String heading, String form, boolean asked, String outcome) {
  static List<FormRow> ofDocument() throws IOException {
    String document = Files.readString(Path.of("firmware-protocol.md"), UTF_8);
    String block = document.split("```forms\n", -1)[1].split("```", -1)[0];
    return block.lines().map(FormRow::of).toList();
  }

  private static FormRow of(String line) {
    String[] sides = line.split(" +=> ", -1);
    int heading = sides[0].indexOf(" // ");
    String form = heading < 0 ? sides[0] : sides[0].substring(heading + 4);
    boolean asked = sides[1].startsWith("ask ");
    return new FormRow(
        sides[0],
        heading < 0 ? "" : sides[0].substring(0, heading).replace("\\t", "\t") + "\n",
        form.replace("\\t", "\t").replace("\\r", "\r"),
        asked,
        asked ? sides[1].substring(4) : sides[1]);
  }
}
