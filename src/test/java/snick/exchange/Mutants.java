package snick.exchange;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import snick.exchange.json.RefusedPackage;
import snick.exchange.write.ExportChoice;
import snick.exchange.write.PackageExport;
import snick.exchange.write.PackageFiles;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.database.Watch;
import snick.store.record.CutSelection;

/** Packages changed at random, their digests forged to fit, or zip files with flipped bytes. */
final class Mutants {
  private static final List<String> TOKENS =
      List.of(
          "NaN",
          "-1e999",
          "99999999999999999999",
          "\"",
          ",",
          "\r\n",
          "\0",
          "\u001b[2J",
          "{}",
          "[[",
          "null",
          "-",
          "",
          "=cmd()",
          "1e-320",
          "\ufeff",
          "../",
          "true");

  private final Path temporary;
  private final Path whole;
  private final byte[] zip;
  private final SplittableRandom random;

  /**
   * What a run came to.
   *
   * @param refused refused with cause
   * @param taken taken in, since what was changed may be
   */
  record Outcome(int refused, int taken) {}

  Mutants(Path temporary, long seed) throws IOException {
    this.temporary = temporary;
    this.random = new SplittableRandom(seed);
    this.whole = temporary.resolve("whole");
    Path data = temporary.resolve("own");
    Bench.fill(data, 2);
    Path packed = temporary.resolve("whole.zip");
    try (StoreReader reader = StoreReader.open(data)) {
      ExportChoice all = ExportChoice.of(CutSelection.all()).with(ExportChoice.Wish.PERSONAL);
      new PackageExport(reader, all, Watch.NONE).toFolder(whole);
      new PackageExport(reader, all, Watch.NONE).toZip(packed);
    }
    zip = Files.readAllBytes(packed);
  }

  /** Tries {@code number} mutants on one store; any failure but a refusal passes through. */
  Outcome run(int number) throws IOException {
    int refused = 0;
    int taken = 0;
    try (Store store = Store.open(temporary.resolve("theirs"), Bench.CLOCK)) {
      for (int i = 0; i < number; i++) {
        Path mutant = i % 3 == 0 ? flippedZip() : changedFolder();
        try {
          new PackageImport(mutant, Optional.empty(), Watch.NONE).into(store, true);
          taken++;
        } catch (RefusedPackage e) {
          refused++;
        } catch (RuntimeException e) {
          throw new IllegalStateException("mutant " + i + " in " + mutant, e);
        }
      }
    }
    return new Outcome(refused, taken);
  }

  private Path flippedZip() throws IOException {
    byte[] bytes = zip.clone();
    for (int i = random.nextInt(1, 4); i > 0; i--) {
      int from = random.nextBoolean() ? 0 : bytes.length - 900;
      bytes[random.nextInt(from, bytes.length)] = (byte) random.nextInt(256);
    }
    return Files.write(temporary.resolve("mutant.zip"), bytes);
  }

  private Path changedFolder() throws IOException {
    Path folder = temporary.resolve("mutant");
    Files.createDirectories(folder);
    try (Stream<Path> files = Files.list(whole)) {
      for (Path file : files.toList()) {
        Files.copy(
            file,
            folder.resolve(file.getFileName()),
            java.nio.file.StandardCopyOption.REPLACE_EXISTING);
      }
    }
    if (random.nextInt(6) == 0) {
      Path descriptor = folder.resolve(PackageFiles.DESCRIPTOR);
      Files.writeString(descriptor, changed(Files.readString(descriptor)));
    } else {
      List<String> files = PackageFiles.DESCRIBED;
      Forged.text(folder, files.get(random.nextInt(files.size())), this::changed);
    }
    return folder;
  }

  private String changed(String text) {
    StringBuilder mutant = new StringBuilder(text);
    for (int i = random.nextInt(1, 4); i > 0 && !mutant.isEmpty(); i--) {
      int at = random.nextInt(mutant.length());
      int end = Math.min(mutant.length(), at + random.nextInt(12));
      switch (random.nextInt(4)) {
        case 0 -> mutant.delete(at, end);
        case 1 -> mutant.replace(at, end, TOKENS.get(random.nextInt(TOKENS.size())));
        case 2 -> mutant.insert(at, mutant.substring(at, end));
        default -> mutant.setCharAt(at, (char) random.nextInt(32, 127));
      }
    }
    return new String(mutant.toString().getBytes(StandardCharsets.UTF_8), StandardCharsets.UTF_8);
  }

  /** What lies in the folder of mutants beside what was put there. */
  List<String> leftBehind() throws IOException {
    List<String> known = new ArrayList<>(List.of("own", "theirs", "whole", "whole.zip"));
    known.addAll(List.of("mutant", "mutant.zip"));
    try (Stream<Path> files = Files.list(temporary)) {
      return files.map(f -> f.getFileName().toString()).filter(f -> !known.contains(f)).toList();
    }
  }
}
