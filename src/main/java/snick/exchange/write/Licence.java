package snick.exchange.write;

import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import snick.json.Json;
import snick.phrase.NotAccepted;

/**
 * The licence that the person chose.
 *
 * @param name SPDX identifier, or another name: letters, digits, point, plus and hyphen
 */
public record Licence(String name) {
  private static final Pattern NAME = Pattern.compile("[A-Za-z0-9][A-Za-z0-9.+-]{0,59}");

  /** Licences made for data, by SPDX identifier, and where their texts are. */
  private static final Map<String, String> TEXTS =
      Map.of(
          "CC0-1.0", "https://creativecommons.org/publicdomain/zero/1.0/",
          "CC-BY-4.0", "https://creativecommons.org/licenses/by/4.0/",
          "CC-BY-SA-4.0", "https://creativecommons.org/licenses/by-sa/4.0/",
          "CC-BY-NC-4.0", "https://creativecommons.org/licenses/by-nc/4.0/",
          "ODbL-1.0", "https://opendatacommons.org/licenses/odbl/1-0/",
          "ODC-By-1.0", "https://opendatacommons.org/licenses/by/1-0/",
          "PDDL-1.0", "https://opendatacommons.org/licenses/pddl/1-0/");

  public Licence {
    if (!NAME.matcher(name).matches()) {
      throw new NotAccepted("refused.licence_name", "n", name.length());
    }
  }

  /** Where its text is, if known. */
  Optional<String> text() {
    return Optional.ofNullable(TEXTS.get(name));
  }

  Map<String, Object> json() {
    return Json.object("name", name, "path", text());
  }
}
