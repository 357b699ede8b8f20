package snick.cli.journal;

import snick.journal.Blade;
import snick.journal.FilamentLot;
import snick.journal.NotAccepted;
import snick.store.JournalReader;

/** Blades and filament lots that a command names and that must be in the journal. */
public final class Noted {
  private Noted() {}

  /**
   * The blade of a label.
   *
   * @throws NotAccepted if it is not in the journal
   */
  static Blade blade(JournalReader journal, String label) {
    return journal
        .blade(label)
        .orElseThrow(
            () ->
                new NotAccepted(
                    "blade '"
                        + label
                        + "' is not in the journal: snick blade list, or snick blade add"));
  }

  /**
   * The filament lot of a name.
   *
   * @throws NotAccepted if it is not in the journal
   */
  public static FilamentLot lot(JournalReader journal, String name) {
    return journal
        .filamentLot(name)
        .orElseThrow(
            () ->
                new NotAccepted(
                    "filament lot '"
                        + name
                        + "' is not in the journal: snick lot list, or snick lot add"));
  }
}
