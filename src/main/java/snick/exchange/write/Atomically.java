package snick.exchange.write;

import java.io.IOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/**
 * Something new under a name that it gets only when it is whole: worked on in a folder beside it
 * that is gone afterwards, whatever happens.
 */
public final class Atomically {
  private Atomically() {}

  /** Fills a folder, and gives the file or folder in it that is to get the name. */
  @FunctionalInterface
  public interface Filling {
    /** What is to get the name: something in {@code workshop}. */
    Path fill(Path workshop) throws IOException;
  }

  /**
   * Makes {@code target} whole, or leaves nothing.
   *
   * @throws FileAlreadyExistsException if it is there already
   */
  public static void make(Path target, Filling filling) throws IOException {
    Path place = target.toAbsolutePath();
    if (Files.exists(place)) {
      throw new FileAlreadyExistsException(target.toString());
    }
    Path workshop = Files.createTempDirectory(place.getParent(), ".snick-");
    try {
      name(filling.fill(workshop), place);
    } finally {
      remove(workshop);
    }
  }

  private static void name(Path made, Path place) throws IOException {
    if (Files.exists(place)) {
      throw new FileAlreadyExistsException(place.toString());
    }
    try {
      Files.move(made, place, StandardCopyOption.ATOMIC_MOVE);
    } catch (AtomicMoveNotSupportedException e) {
      Files.move(made, place);
    }
  }

  private static void remove(Path folder) throws IOException {
    List<Path> deepestFirst;
    try (Stream<Path> all = Files.walk(folder)) {
      deepestFirst = all.sorted(Comparator.reverseOrder()).toList();
    }
    for (Path path : deepestFirst) {
      Files.deleteIfExists(path);
    }
  }
}
