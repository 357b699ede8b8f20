package snick.exchange.write;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import snick.exchange.json.RefusedPackage;
import snick.exchange.write.ExportChoice.Wish;
import snick.json.Json;
import snick.json.JsonNode;
import snick.phrase.NotAccepted;
import snick.store.record.Credit;

/**
 * Whose work a package is, and on what terms. What came from others stays theirs under their
 * licence; what came whole from one sender, with nothing chosen, is passed on as that sender's.
 *
 * @param title title of the package
 * @param licence licence of the exporting person's own work; empty if none
 * @param contributors who made it, apart from the sources; empty if nobody is named
 * @param sources work of others that is in it, in order
 * @param anyOwn whether it has work that is of no source
 */
public record Attribution(
    String title,
    Optional<Licence> licence,
    List<String> contributors,
    List<Credit> sources,
    boolean anyOwn) {
  /**
   * The attribution of what was chosen.
   *
   * @param used credits of the cuts and sessions of others in it
   * @param anyOwn whether there is one's own work in it
   * @throws NotAccepted if it would put a licence on what others gave without one
   */
  static Attribution of(ExportChoice choice, Collection<Credit.Of> used, boolean anyOwn) {
    Optional<Credit> only = onlySender(used, anyOwn).filter(sender -> choice.about().isEmpty());
    if (only.isPresent()) {
      Credit sender = only.get();
      return new Attribution(
          sender.title().isBlank() ? choice.about().title() : sender.title(),
          sender.licence().map(Licence::new),
          sender.contributors(),
          sources(used.stream().filter(of -> !of.itself()).toList()),
          true);
    }
    List<Credit> sources = sources(used);
    Optional<Credit> withoutLicence =
        sources.stream().filter(s -> s.licence().isEmpty()).findFirst();
    if (choice.about().licence().isPresent()
        && withoutLicence.isPresent()
        && !choice.has(Wish.SENDERS_AGREED)) {
      throw new NotAccepted(
          "refused.no_leave", "title", RefusedPackage.shown(withoutLicence.get().title()));
    }
    List<Credit> licensed =
        sources.stream()
            .map(s -> s.licence().isPresent() ? s : under(s, choice.about().licence()))
            .toList();
    return new Attribution(
        choice.about().title(),
        choice.about().licence(),
        choice.about().contributor().stream().toList(),
        licensed,
        anyOwn);
  }

  /** The one who sent all of it, if there is one. */
  private static Optional<Credit> onlySender(Collection<Credit.Of> used, boolean anyOwn) {
    boolean one = !anyOwn && used.stream().map(Credit.Of::origin).distinct().count() == 1;
    return used.stream().filter(of -> one && of.itself()).map(Credit.Of::credit).findFirst();
  }

  private static List<Credit> sources(Collection<Credit.Of> used) {
    return used.stream()
        .map(Credit.Of::credit)
        .distinct()
        .sorted(Comparator.comparing(Credit::title).thenComparing(Credit::sha256))
        .toList();
  }

  private static Credit under(Credit source, Optional<Licence> licence) {
    return new Credit(
        source.sha256(), source.title(), licence.map(Licence::name), source.contributors());
  }

  /** Number of the source whose work a cut is, from 1; empty if it is of none. */
  OptionalInt source(Optional<Credit.Of> of) {
    if (of.isEmpty()) {
      return OptionalInt.empty();
    }
    Credit credit = of.get().credit();
    for (int i = 0; i < sources.size(); i++) {
      Credit source = sources.get(i);
      if (source.sha256().equals(credit.sha256()) && source.title().equals(credit.title())) {
        return OptionalInt.of(i + 1);
      }
    }
    return OptionalInt.empty();
  }

  /** Every licence in it, one's own first; empty if some of it has none. */
  List<Licence> licences() {
    boolean all =
        (licence.isPresent() || !anyOwn) && sources.stream().allMatch(s -> s.licence().isPresent());
    if (!all) {
      return List.of();
    }
    Set<Licence> licences = new LinkedHashSet<>();
    licence.filter(l -> anyOwn).ifPresent(licences::add);
    sources.forEach(s -> s.licence().map(Licence::new).ifPresent(licences::add));
    return List.copyOf(licences);
  }

  /** Adds what the descriptor says of it. */
  void put(Map<String, Object> descriptor) {
    if (!licences().isEmpty()) {
      descriptor.put("licenses", licences().stream().map(Licence::json).toList());
    }
    if (!contributors.isEmpty()) {
      descriptor.put("contributors", contributors.stream().map(Attribution::creator).toList());
    }
    if (!sources.isEmpty()) {
      descriptor.put("sources", sources.stream().map(Attribution::json).toList());
    }
  }

  private static Map<String, Object> creator(String name) {
    return Json.object("title", name, "roles", List.of("creator"));
  }

  private static Map<String, Object> json(Credit source) {
    return Json.object(
        "title", source.title(),
        "hash", "sha256:" + source.sha256(),
        "licenses", source.licence().map(name -> List.of(new Licence(name).json())),
        "contributors", source.contributors().stream().map(Attribution::creator).toList());
  }

  /** What a package says of whose work it holds: itself first, then its sources. */
  public static List<Credit> read(JsonNode descriptor, String sha256) {
    List<Credit> credits = new ArrayList<>();
    credits.add(credit(descriptor, sha256));
    for (JsonNode source : descriptor.member("sources").elementsIfAny()) {
      String hash = source.member("hash").text();
      if (!hash.matches("sha256:[0-9a-f]{64}")) {
        throw new RefusedPackage(source.place() + ".hash is no SHA-256; ask the sender");
      }
      credits.add(credit(source, hash.substring("sha256:".length())));
    }
    return credits;
  }

  private static Credit credit(JsonNode node, String sha256) {
    return new Credit(
        sha256,
        node.member("title").optional(t -> t.plainText(ExportChoice.LONGEST)).orElse(""),
        node.member("licenses").elementsIfAny().stream()
            .map(l -> l.as(Attribution::licence).name())
            .findFirst(),
        node.member("contributors").elementsIfAny().stream()
            .map(c -> c.member("title").plainText(ExportChoice.LONGEST))
            .filter(name -> !name.isBlank())
            .toList());
  }

  private static Licence licence(JsonNode node) {
    return new Licence(node.member("name").text());
  }
}
