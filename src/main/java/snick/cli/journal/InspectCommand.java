package snick.cli.journal;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.NotingCommand;
import snick.cli.option.OpenedJournal;
import snick.cli.option.SessionChoice;
import snick.cli.terminal.FileReason;
import snick.cli.terminal.Refusal;
import snick.journal.Entry;
import snick.journal.Inspection;
import snick.journal.InspectionWords;
import snick.journal.Photo;
import snick.journal.SessionLog;
import snick.journal.StageEntry;
import snick.phrase.NotAccepted;
import snick.store.SessionEvidence;

/** Notes a look for a burr. */
@Command(
    name = "inspect",
    description = {
      "Note a look for a burr in the current stage, in short words, in any order.",
      "  side     l r b (left, right, both; from the spine, tip away)",
      "  method   light, f(inger), 10x, p(aper), cotton, nail, free; default: as last",
      "  place    h m t (heel, middle, tip) or 35mm; default: all along",
      "  finding  burr, n(one), u(nsure); paper: clean, catches, tears, nostart",
      "  note     after a colon"
    },
    footer = {
      "  snick inspect l light h burr",
      "  snick inspect r n",
      "  snick inspect paper tears : at the tip only",
      "  snick inspect l 50x burr --photo heel.jpg",
      "  snick inspect l 10x 35mm none --correct 12 --why 'it was the left side'",
      "",
      "A fingertip moves away from the edge, never along it.",
    })
public final class InspectCommand extends NotingCommand {
  @Parameters(arity = "1..*", paramLabel = "WORD", description = "See above.")
  private List<String> words;

  @Option(
      names = "--photo",
      paramLabel = "FILE",
      description =
          "A photo of it, JPEG or PNG, up to 20 MB; it is copied into the store's folder as it is.")
  private Optional<Path> photo = Optional.empty();

  @Mixin private SessionChoice session;
  @Mixin private StageChoice stage;
  @Mixin private CorrectionChoice correction;

  @Override
  protected void note(OpenedJournal journal) {
    PrintWriter out = out();
    SessionLog log = journal.log(session);
    Entry<StageEntry> entry =
        correction.note(journal, log, inspection(log, photo.map(file -> keep(journal, file))));
    out.println(JournalText.head(entry) + JournalText.entry(entry.content()));
    Advice.print(
        out, data, SessionEvidence.read(journal.reader(), log.session().name()), journal.reader());
  }

  private static Photo keep(OpenedJournal journal, Path file) {
    try (InputStream in = Files.newInputStream(file)) {
      return journal.store().photos().keep(in.readNBytes(Photo.MOST_BYTES + 1));
    } catch (IOException e) {
      throw Refusal.badInput(file + " cannot be read: " + FileReason.of(e));
    } catch (NotAccepted e) {
      throw Refusal.badInput(file + ": " + e.getMessage());
    }
  }

  private Inspection inspection(SessionLog log, Optional<Photo> kept) {
    Optional<Inspection> corrected = correction.earlier(log, Inspection.class);
    Instant at = corrected.map(Inspection::at).orElseGet(OpenedJournal::now);
    return InspectionWords.parse(String.join(" ", words))
        .complete(at, stage.in(log, corrected), corrected.or(() -> last(log)))
        .with(kept.or(() -> corrected.flatMap(Inspection::photo)));
  }

  private static Optional<Inspection> last(SessionLog log) {
    List<Inspection> all = log.inspections();
    return all.isEmpty() ? Optional.empty() : Optional.of(all.get(all.size() - 1));
  }
}
