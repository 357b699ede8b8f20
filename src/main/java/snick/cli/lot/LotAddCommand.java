package snick.cli.lot;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.journal.JournalText;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedJournal;
import snick.journal.FilamentLot;

/** Adds a filament lot. */
@Command(
    name = "add",
    description = "Add a lot of test filament.",
    footerHeading = "%nExamples (invented):%n",
    footer = {
      "  snick lot add spool-b --material 'nylon monofilament' --diameter 0.25",
      "  snick lot add spool-c --material nylon --diameter 0.25 --tension 2",
      "",
      "Compare a new lot with the old one on a reference edge: snick lot compare --help",
    })
final class LotAddCommand extends DataCommand implements Runnable {
  @Parameters(paramLabel = "LOT", description = "Own name of the lot, new.")
  private String name;

  @Option(names = "--new", description = "Add it even if its name is nearly one known.")
  private boolean isNew;

  @Mixin private LotFields fields;

  @Override
  public void run() {
    FilamentLot lot = fields.named(name);
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      if (!isNew) {
        journal.reader().journal().lotNames().requireNoSlip(lot.lot());
      }
      journal.writer().add(lot);
    }
    println("added " + JournalText.lot(lot));
  }
}
