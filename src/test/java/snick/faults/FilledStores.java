package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import snick.FolderCopy;
import snick.store.OlderStore;

/**
 * Stores so full that a new file made of them is worth more than the little room that a command
 * needs to start; made once, for each scene to have its own.
 */
final class FilledStores {
  private static final int STORED_CUTS = 300;

  /** A pool takes so much less room than other new files. */
  private static final int COMPRESSED = 10;

  private final Path folder;

  private FilledStores(Path folder) {
    this.folder = folder;
  }

  static FilledStores in(Path folder) throws Exception {
    FilledStores stores = new FilledStores(folder);
    OlderStore.make(stores.of(false), STORED_CUTS);
    OlderStore.make(stores.of(true), COMPRESSED * STORED_CUTS);
    for (boolean compressed : List.of(false, true)) {
      unpackLibrary(folder, stores.of(compressed));
    }
    return stores;
  }

  /** The driver's library lies beside the store once a program has used it. */
  private static void unpackLibrary(Path folder, Path data) throws Exception {
    try (Running unpacks = Running.snick(folder, "cuts", "list", "--data", data.toString())) {
      assertThat(unpacks.over()).isZero();
    }
  }

  private Path of(boolean compressed) {
    return folder.resolve(compressed ? "for-pools" : "for-others");
  }

  /** Lays the one for {@code command} into a folder that is not there yet. */
  void lay(String command, Path into) throws IOException {
    FolderCopy.lay(of(command.contains("--parquet")), into);
  }
}
