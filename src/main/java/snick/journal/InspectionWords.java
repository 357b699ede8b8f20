package snick.journal;

import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import snick.journal.name.Field;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/**
 * Short words for an inspection, in any order and case, typed with one hand: {@code l light heel
 * none}, {@code paper tears}, {@code r 10x 35mm burr : bright line}. What follows a colon is the
 * note.
 */
public final class InspectionWords {
  private static final int LONGEST = Field.NOTE_LIMIT + 200;
  private static final Pattern TIMES = Pattern.compile("(?:x(\\d{1,4})|(\\d{1,4})x)");
  private static final Pattern NUMBER = Pattern.compile("\\d{1,6}(?:[.,]\\d{1,6})?");

  private static final Map<String, Side> SIDE =
      Map.of(
          "left", Side.LEFT,
          "l", Side.LEFT,
          "right", Side.RIGHT,
          "r", Side.RIGHT,
          "both", Side.BOTH,
          "b", Side.BOTH);

  private static final Map<String, Method> METHOD = Method.byTypedWord();

  private static final Map<String, Finding> FINDING =
      Map.ofEntries(
          Map.entry("burr", Finding.BURR_SEEN),
          Map.entry("none", Finding.NONE),
          Map.entry("n", Finding.NONE),
          Map.entry("unsure", Finding.UNSURE),
          Map.entry("u", Finding.UNSURE),
          Map.entry("?", Finding.UNSURE),
          Map.entry("clean", Finding.CLEAN),
          Map.entry("catches", Finding.CATCHES),
          Map.entry("catch", Finding.CATCHES),
          Map.entry("tears", Finding.TEARS),
          Map.entry("tear", Finding.TEARS),
          Map.entry("nostart", Finding.WILL_NOT_START));

  private Optional<Method> method = Optional.empty();
  private OptionalDouble magnification = OptionalDouble.empty();
  private Optional<Side> side = Optional.empty();
  private Optional<Place> place = Optional.empty();
  private Optional<Finding> finding = Optional.empty();

  private InspectionWords() {}

  /**
   * Reads {@code text}.
   *
   * @throws NotAccepted if a word is not known or says a second side, method, place or finding; the
   *     message lists what is allowed
   */
  public static InspectionDraft parse(String text) {
    if (text.length() > LONGEST) {
      throw new NotAccepted(
          Phrase.of("refused.too_long")
              .with("field", Field.called("inspection"))
              .with("n", text.length())
              .with("limit", LONGEST));
    }
    int colon = text.indexOf(':');
    String note = colon < 0 ? "" : text.substring(colon + 1).strip();
    InspectionWords words = new InspectionWords();
    words.read(colon < 0 ? text : text.substring(0, colon));
    return new InspectionDraft(
        words.method, words.magnification, words.side, words.place, words.finding, note);
  }

  private void read(String text) {
    Deque<String> rest = new ArrayDeque<>(Arrays.asList(joined(text).split("\\s+")));
    while (!rest.isEmpty()) {
      String word = rest.poll();
      if (!word.isEmpty()) {
        take(word);
      }
    }
  }

  /** Words that belong together, joined: {@code will not start} and {@code 35 mm}. */
  private static String joined(String text) {
    return text.toLowerCase(Locale.ROOT)
        .replaceAll("(?:will|does|do)[ _-]not[ _-]start|won't start|no start", "nostart")
        .replaceAll("burr[ _-]seen", "burr")
        .replaceAll("raking[ _-]light", "light")
        .replaceAll("thin[ _-]paper", "paper")
        .replaceAll("(cotton|nail)[ _-]drag", "$1")
        .replaceAll("(\\d) mm\\b", "$1mm");
  }

  private void take(String word) {
    Matcher times = TIMES.matcher(word);
    if (SIDE.containsKey(word)) {
      side = once("side", side, SIDE.get(word));
    } else if (METHOD.containsKey(word)) {
      method = once("method", method, METHOD.get(word));
    } else if (FINDING.containsKey(word)) {
      finding = once("finding", finding, FINDING.get(word));
    } else if (times.matches()) {
      takeMagnification(times);
    } else {
      takePlace(word);
    }
  }

  private void takeMagnification(Matcher times) {
    String digits = times.group(1) == null ? times.group(2) : times.group(1);
    method = once("method", method, Method.MAGNIFIER);
    magnification =
        OptionalDouble.of(Field.within("magnification", Double.parseDouble(digits), 1, 5000, "×"));
  }

  private void takePlace(String word) {
    if (NUMBER.matcher(word).matches()) {
      throw new NotAccepted("refused.no_unit", "word", word);
    }
    Place said = PlaceWords.parse(word).orElseThrow(() -> unknown(word));
    place = once("place", place, said);
  }

  private static <T> Optional<T> once(String field, Optional<T> before, T now) {
    if (before.isPresent() && !before.get().equals(now)) {
      throw new NotAccepted(
          Phrase.of("refused.two_words")
              .with("field", Field.called(field))
              .with("allowed", Phrase.of("allowed." + field)));
    }
    return Optional.of(now);
  }

  private static NotAccepted unknown(String word) {
    return new NotAccepted(
        Phrase.of("refused.inspection_word")
            .with("word", Field.shown(word))
            .with("sides", Phrase.of("allowed.side"))
            .with("methods", Phrase.of("allowed.method"))
            .with("places", Phrase.of("allowed.place"))
            .with("findings", Phrase.of("allowed.finding"))
            .with("paper", Phrase.of("allowed.paper_finding")));
  }
}
