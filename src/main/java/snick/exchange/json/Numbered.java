package snick.exchange.json;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.BiFunction;
import java.util.function.Function;
import snick.json.JsonNode;

/** Lists whose items say their own number, from 1: other files refer to them by it. */
final class Numbered {
  private Numbered() {}

  static <T> List<Object> write(
      List<T> items, BiFunction<Integer, T, Map<String, Object>> writing) {
    List<Object> list = new ArrayList<>();
    items.forEach(item -> list.add(writing.apply(list.size() + 1, item)));
    return list;
  }

  /** The items in member {@code list}, each with its number in {@code member}. */
  static <T> List<T> read(
      JsonNode root, String list, String member, Function<JsonNode, T> reading) {
    List<T> items = new ArrayList<>();
    for (JsonNode node : root.member(list).elements()) {
      if (node.member(member).whole() != items.size() + 1) {
        throw new RefusedPackage(
            node.place() + ": " + list + " are not numbered from 1; ask the sender");
      }
      items.add(node.as(reading));
    }
    return items;
  }
}
