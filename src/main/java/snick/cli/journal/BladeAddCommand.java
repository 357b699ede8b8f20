package snick.cli.journal;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedJournal;
import snick.journal.Blade;

/** Adds a blade. */
@Command(
    name = "add",
    description = "Add a blade under a label of your own.",
    footerHeading = "%nExamples (invented):%n",
    footer = {
      "  snick blade add kitchen-1",
      "  snick blade add kitchen-1 --steel 'carbon steel' --hardness 60 \\",
      "    --angle 30 --length 180",
    })
final class BladeAddCommand extends DataCommand implements Runnable {
  @Parameters(paramLabel = "LABEL", description = "A label of your own, not used yet.")
  private String label;

  @Option(names = "--new", description = "Add it even if its label is nearly one known.")
  private boolean isNew;

  @Mixin private BladeFields fields;

  @Override
  public void run() {
    Blade blade = fields.over(Blade.labelled(label));
    try (OpenedJournal journal = OpenedJournal.of(data)) {
      if (!isNew) {
        journal.reader().journal().bladeNames().requireNoSlip(blade.label());
      }
      journal.writer().add(blade);
    }
    println("added " + JournalText.blade(blade));
  }
}
