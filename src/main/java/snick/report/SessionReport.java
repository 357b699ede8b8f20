package snick.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import snick.journal.Session;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.report.plot.Day;
import snick.report.plot.NotedInWords;
import snick.store.SessionEvidence;
import snick.store.StoreReader;
import snick.verdict.comparison.Judge;

/** The report of one session, from as found to finished. */
public final class SessionReport {
  private final Document document;

  private SessionReport(Document document) {
    this.document = document;
  }

  /**
   * The report of the session called {@code name}.
   *
   * @param judge margin and rig that verdicts are measured by
   * @param personal whether operator, notes and reasons for setting aside are told
   * @param words the language
   * @throws NotAccepted if there is no such session
   */
  public static SessionReport of(
      StoreReader store, String name, Judge judge, boolean personal, Words words) {
    SessionStory story = SessionStory.read(store, SessionEvidence.read(store, name), judge);
    NotedInWords noted = new NotedInWords(personal, words);
    return new SessionReport(
        document(story, noted, new PhotoChapter(story, store.photos(), noted).blocks()));
  }

  private static Document document(SessionStory story, NotedInWords noted, List<Block> photos) {
    Words words = noted.words();
    return new Document(
        words,
        words.say("report.title", "session", story.session().name()),
        lead(story, noted),
        Stream.of(
                section(words, "brought", new ShortStory(story, noted).blocks()),
                section(words, "figures", new StageChapter(story, noted).blocks()),
                section(words, "photos", photos),
                section(words, "reasons", new VerdictChapter(story, words).blocks()),
                section(words, "every_cut", new CutChapter(story, noted).blocks()),
                section(words, "method", new MethodChapter(story, words).blocks()),
                section(words, "glossary", List.of(glossary(words))),
                section(words, "cautions", cautions(words)))
            .filter(section -> !section.blocks().isEmpty())
            .toList());
  }

  private static Document.Section section(Words words, String key, List<Block> blocks) {
    return new Document.Section(words.say("report." + key), blocks);
  }

  private static List<Block> lead(SessionStory story, NotedInWords noted) {
    Words words = noted.words();
    Session session = story.session();
    List<String> facts = new ArrayList<>();
    facts.add(words.say("report.blade", "blade", noted.blade(story.evidence().blade())));
    facts.add(
        words.say(
            Phrase.of("report.filament")
                .with("lot", story.lot().map(noted::lot).orElse(words.say("start.lot_none")))));
    facts.add(when(session, words));
    session
        .roomCelsius()
        .ifPresent(t -> facts.add(words.say("report.room", "celsius", NotedInWords.plain(t))));
    Optional<String> operator = noted.personal() ? session.operator() : Optional.empty();
    operator.ifPresent(alias -> facts.add(words.say("report.operator", "alias", alias)));
    return List.of(new Block.Paragraph(String.join(" · ", facts)));
  }

  private static String when(Session session, Words words) {
    String from = Day.minute(session.opened());
    return session
        .closed()
        .map(at -> words.say("report.when", "from", from, "to", Day.minute(at)))
        .orElse(words.say("report.when_open", "from", from));
  }

  private static Block glossary(Words words) {
    return new Block.Points(
        words.glossary().stream()
            .map(entry -> new Block.Point(entry.word() + ": " + entry.meaning(), ""))
            .toList());
  }

  private static List<Block> cautions(Words words) {
    return List.of(
        Block.Points.of(
            List.of(
                words.say("report.caution_keen"),
                words.say("report.caution_rig"),
                words.say("report.caution_low"))),
        new Block.Notice(words.say("report.what_it_is")));
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
