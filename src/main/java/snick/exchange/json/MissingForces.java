package snick.exchange.json;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import snick.json.JsonNode;

/**
 * Why cuts had no force when they were recorded, in {@code calibration.json}: each reason with runs
 * of cuts, by their numbers in the package.
 */
public final class MissingForces {
  private static final String MEMBER = "without_force";
  private static final int MOST_CHARACTERS = 1_000;

  private final TreeMap<Integer, Run> runs = new TreeMap<>();

  private record Run(int last, String why) {}

  /** Adds a cut; its number is above all that were added. */
  public void add(int cut, String why) {
    Map.Entry<Integer, Run> before = runs.lastEntry();
    boolean goesOn = before != null && before.getValue().equals(new Run(cut - 1, why));
    runs.put(goesOn ? before.getKey() : cut, new Run(cut, why));
  }

  /** Why a cut had no force; empty if it had one. */
  public Optional<String> of(int cut) {
    return Optional.ofNullable(runs.floorEntry(cut))
        .map(Map.Entry::getValue)
        .filter(run -> run.last() >= cut)
        .map(Run::why);
  }

  /** Adds the reasons, if there are any, to what is in the file. */
  void addTo(Map<String, Object> json) {
    Map<String, List<Object>> byReason = new LinkedHashMap<>();
    runs.forEach(
        (first, run) ->
            byReason
                .computeIfAbsent(run.why(), why -> new ArrayList<>())
                .add(List.of(first, run.last())));
    List<Object> all = new ArrayList<>();
    byReason.forEach((why, cuts) -> all.add(Map.of("why", why, "cuts", cuts)));
    if (!all.isEmpty()) {
      json.put(MEMBER, all);
    }
  }

  public static MissingForces read(JsonNode root) {
    MissingForces found = new MissingForces();
    for (JsonNode one : root.member(MEMBER).elementsIfAny()) {
      String why = one.member("why").plainText(MOST_CHARACTERS);
      one.member("cuts").elements().forEach(run -> found.add(run.elements(), run, why));
    }
    return found;
  }

  private void add(List<JsonNode> ends, JsonNode run, String why) {
    if (ends.size() != 2 || ends.get(0).integer() > ends.get(1).integer()) {
      throw new RefusedPackage(run.place() + ": no first and last cut; ask the sender");
    }
    runs.put(ends.get(0).integer(), new Run(ends.get(1).integer(), why));
  }
}
