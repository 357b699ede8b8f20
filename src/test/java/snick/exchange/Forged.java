package snick.exchange;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import snick.exchange.table.DigestedFile;
import snick.exchange.table.FileFacts;
import snick.exchange.table.PackageTable;
import snick.exchange.write.PackageFiles;

/** Changes a package as someone would who also forges its digests. */
final class Forged {
  private Forged() {}

  /** Sets one cell; rows count from 1 below the header. */
  static void cell(Path folder, PackageTable<?> table, int row, String column, String value)
      throws IOException {
    text(
        folder,
        table.file(),
        text -> {
          List<String> lines = new ArrayList<>(List.of(text.split("\r\n", -1)));
          String[] cells = lines.get(row).split(",", -1);
          cells[table.index(column)] = value;
          lines.set(row, String.join(",", cells));
          return String.join("\r\n", lines);
        });
  }

  /** Changes the text of a file, and the digest with it. */
  static void text(Path folder, String file, UnaryOperator<String> change) throws IOException {
    Path path = folder.resolve(file);
    FileFacts before = facts(path);
    Files.writeString(path, change.apply(Files.readString(path)), StandardCharsets.UTF_8);
    FileFacts after = facts(path);
    Path descriptor = folder.resolve(PackageFiles.DESCRIPTOR);
    String old =
        "\"bytes\" : " + before.bytes() + ",\n      \"hash\" : \"sha256:" + before.sha256();
    String text = Files.readString(descriptor);
    if (!text.contains(old)) {
      throw new IllegalStateException("the descriptor does not state " + file + " so");
    }
    Files.writeString(
        descriptor,
        text.replace(
            old,
            "\"bytes\" : " + after.bytes() + ",\n      \"hash\" : \"sha256:" + after.sha256()));
  }

  private static FileFacts facts(Path path) throws IOException {
    byte[] bytes = Files.readAllBytes(path);
    var digest = DigestedFile.sha256();
    digest.update(bytes);
    return new FileFacts(bytes.length, DigestedFile.hex(digest));
  }
}
