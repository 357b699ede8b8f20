package snick.store;

import java.nio.file.Path;
import java.time.Clock;
import snick.store.record.NewCut;

/** Appends cuts to the store in the directory named, and says each id after its commit. */
final class AppendingProgram {
  private AppendingProgram() {}

  public static void main(String[] args) {
    try (Store store = Store.open(Path.of(args[0]), Clock.systemUTC())) {
      long recording = store.startRecording(Examples.recording());
      for (int number = 1; number <= 100_000; number++) {
        long id = store.append(NewCut.of(recording, Examples.NOON, Examples.severed(number)));
        System.out.println(id + " " + number);
      }
    }
  }
}
