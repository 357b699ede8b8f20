package snick.journal.name;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import snick.phrase.Phrase;

/** Which of some names a typed one comes near to. */
public final class NearNames {
  private static final int MOST = 3;
  private static final int LETTERS_A_SLIP = 4;
  private static final int MOST_SLIPS = 2;

  private NearNames() {}

  /** Of {@code known}, those that {@code typed} may stand for, nearest first, at most 3. */
  public static List<String> of(String typed, Collection<String> known) {
    return known.stream()
        .filter(name -> isNear(plain(typed), plain(name)))
        .sorted(Comparator.comparingInt(name -> slips(plain(typed), plain(name))))
        .limit(MOST)
        .toList();
  }

  /** As {@link #of}, without names that differ in numbers or single letters: on purpose. */
  public static List<String> slipsOf(String typed, Collection<String> known) {
    List<String> alike =
        known.stream()
            .filter(name -> counter(name).equals(counter(typed)))
            .filter(name -> isSlip(plain(typed), plain(name)))
            .toList();
    return of(typed, alike);
  }

  /** The question to ask, with a leading semicolon; empty if nothing is near. */
  public static Object question(List<String> near) {
    return near.stream()
        .map(Field::shown)
        .map(Object.class::cast)
        .reduce((first, second) -> Phrase.of("near.or", "first", first, "second", second))
        .<Object>map(names -> Phrase.of("near.did_you_mean", "names", names))
        .orElse("");
  }

  private static boolean isNear(String typed, String name) {
    boolean part = typed.length() > 1 && (name.contains(typed) || typed.contains(name));
    return part || isSlip(typed, name);
  }

  /** One slip for each 4 letters, 2 at most. */
  private static boolean isSlip(String typed, String name) {
    int longest = Math.max(typed.length(), name.length());
    int limit = Math.min(MOST_SLIPS, longest / LETTERS_A_SLIP);
    return Math.abs(typed.length() - name.length()) <= limit && slips(typed, name) <= limit;
  }

  private static String plain(String name) {
    String letters = name.toLowerCase(Locale.ROOT).replaceAll("[\\s_.-]", "");
    return letters.isEmpty() ? name : letters;
  }

  /** What is counted up in a row of names: digits, and letters that stand alone. */
  private static String counter(String name) {
    return name.replaceAll("\\p{L}{2,}|[^\\p{L}\\d]", " ").replaceAll(" +", " ").strip();
  }

  /**
   * Letters put in, left out, replaced, or swapped with the next one: the distance of F. J.
   * Damerau, Communications of the ACM 7 (1964), 171–176, in the restricted form.
   */
  static int slips(String a, String b) {
    int[][] cost = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        cost[i][j] = i == 0 || j == 0 ? i + j : cheapest(cost, a, b, i, j);
      }
    }
    return cost[a.length()][b.length()];
  }

  private static int cheapest(int[][] cost, String a, String b, int i, int j) {
    int replaced = cost[i - 1][j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
    int least = Math.min(replaced, 1 + Math.min(cost[i - 1][j], cost[i][j - 1]));
    boolean swapped =
        i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1);
    return swapped ? Math.min(least, cost[i - 2][j - 2] + 1) : least;
  }
}
