package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.function.Consumer;
import snick.store.StoreReader;
import snick.store.database.Watch;
import snick.store.record.CutSelection;

/** What holds of every store, whatever happened to its program. */
final class Sound {
  private Sound() {}

  /** Opens the store without help, demands that it passes its check, and looks at it. */
  static void demand(Path directory, Consumer<StoreReader> further) {
    try (StoreReader reader = StoreReader.open(directory)) {
      assertThat(reader.verify(Watch.NONE).problems()).as("problems of " + directory).isEmpty();
      further.accept(reader);
    }
  }

  static long cuts(Path directory) {
    try (StoreReader reader = StoreReader.open(directory)) {
      return reader.count(CutSelection.all());
    }
  }
}
