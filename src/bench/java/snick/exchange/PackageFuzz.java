package snick.exchange;

import java.nio.file.Files;
import java.nio.file.Path;

/** Tries mutated packages for as long as wanted. Arguments: directory, seed, number of mutants. */
final class PackageFuzz {
  private PackageFuzz() {}

  public static void main(String[] args) throws Exception {
    Path directory = Files.createTempDirectory(Path.of(args[0]), "snick-fuzz");
    Mutants mutants = new Mutants(directory, Long.parseLong(args[1]));
    System.out.println(
        mutants.run(Integer.parseInt(args[2])) + ", left behind: " + mutants.leftBehind());
  }
}
