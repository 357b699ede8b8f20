package snick.daemon;

import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import snick.live.Fact;
import snick.phrase.Phrase;

/**
 * What went wrong, each kind once, with count, first and last time. Safe for any thread. Keeps at
 * most {@value #MOST_KINDS} kinds; further ones are counted under one name.
 */
final class FaultLog {
  private static final int MOST_KINDS = 64;

  private final Clock clock;
  private final Map<String, Fact> facts = new LinkedHashMap<>();

  FaultLog(Clock clock) {
    this.clock = clock;
  }

  /**
   * Notes one more fault.
   *
   * @param kind short name, always the same for the same thing
   * @param what what happened last
   * @return whether this is the first of its kind
   */
  synchronized boolean note(String kind, Phrase what) {
    Instant now = clock.instant();
    String key = facts.containsKey(kind) || facts.size() < MOST_KINDS ? kind : "further faults";
    Fact known = facts.get(key);
    facts.put(
        key,
        known == null
            ? new Fact(key, what, 1, now, now)
            : new Fact(key, what, known.count() + 1, known.first(), now));
    return known == null;
  }

  /** All facts so far, oldest kind first. */
  synchronized List<Fact> facts() {
    return new ArrayList<>(facts.values());
  }
}
