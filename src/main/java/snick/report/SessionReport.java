package snick.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.journal.Session;
import snick.journal.name.NotAccepted;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.comparison.Judge;

/** The report of one session, from as found to finished. */
public final class SessionReport {
  /** Said on every report. */
  public static final String WHAT_IT_IS = "In-house measurements, not an accredited certificate.";

  private final Document document;

  private SessionReport(Document document) {
    this.document = document;
  }

  /**
   * The report of the session called {@code name}.
   *
   * @param judge margin and rig that verdicts are measured by
   * @param personal whether operator, notes and reasons for setting aside are told
   * @throws NotAccepted if there is no such session
   */
  public static SessionReport of(StoreReader store, String name, Judge judge, boolean personal) {
    SessionStory story = SessionStory.read(store, SessionEvidence.read(store, name), judge);
    return new SessionReport(document(story, new Noted(personal)));
  }

  private static Document document(SessionStory story, Noted noted) {
    return new Document(
        "Session " + story.session().name(),
        lead(story, noted),
        List.of(
            new Document.Section("In short", new ShortStory(story).blocks()),
            new Document.Section("Stage by stage", new StageChapter(story, noted).blocks()),
            new Document.Section("Verdicts and their reasons", new VerdictChapter(story).blocks()),
            new Document.Section("Every cut", new CutChapter(story, noted).blocks()),
            new Document.Section("How it was measured", new MethodChapter(story).blocks()),
            new Document.Section("Cautions", cautions())));
  }

  private static List<Block> lead(SessionStory story, Noted noted) {
    Session session = story.session();
    List<String> facts = new ArrayList<>();
    facts.add("Blade: " + noted.blade(story.evidence().blade()));
    facts.add("Filament: " + story.lot().map(Noted::lot).orElse("lot not noted"));
    facts.add(
        "When: "
            + Day.minute(session.opened())
            + session.closed().map(at -> " to " + Day.minute(at)).orElse(", still running"));
    session.roomCelsius().ifPresent(t -> facts.add("Room: " + Noted.plain(t) + " °C"));
    Optional<String> operator = noted.personal() ? session.operator() : Optional.empty();
    operator.ifPresent(alias -> facts.add("Operator: " + alias));
    return List.of(new Block.Notice(WHAT_IT_IS), Block.Points.of(facts));
  }

  private static List<Block> cautions() {
    return List.of(
        Block.Points.of(
            List.of(
                "A keen edge cuts at a touch. Carry and hand over the blade with the edge covered.",
                "At the rig the blade is driven at a taut line and comes free when the line parts:"
                    + " clamp the blade or the guide, put a guard in front of the line, wear a"
                    + " cut-resistant glove and eye protection.",
                "A low force says that the edge is keen where it was cut, with this filament on"
                    + " this rig. It does not say how long the edge lasts, and forces from other"
                    + " rigs or filaments are not comparable without a check.")),
        new Block.Notice(WHAT_IT_IS));
  }

  /** As one HTML page that needs nothing from elsewhere and prints on A4 and Letter. */
  public String html() {
    return HtmlPage.of(document);
  }

  /** As Markdown with tables; pictures are told in words. */
  public String markdown() {
    return MarkdownText.of(document);
  }
}
