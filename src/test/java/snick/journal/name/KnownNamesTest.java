package snick.journal.name;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;

/** What a typed name means; the names are invented. */
class KnownNamesTest {
  private final KnownNames blades =
      new KnownNames(
          "blade",
          List.of("kitchen-1", "kitchen-2", "Pocket", "knife a"),
          Phrase.of("see.blade_list"));

  /**
   * Distances as one counts them by hand; the last four pairs stand in the literature: kitten and
   * sitting (from memory), and a swap of neighbours counted once (Damerau 1964).
   */
  @ParameterizedTest
  @CsvSource({
    "'', '', 0",
    "'', abc, 3",
    "blade, blade, 0",
    "blade, bladee, 1",
    "blade, blde, 1",
    "kitten, sitting, 3",
    "blade, balde, 1",
    "ab, ba, 1",
    "abcd, badc, 2"
  })
  void slipsAreCounted(String a, String b, int slips) {
    assertThat(NearNames.slips(a, b)).isEqualTo(slips);
    assertThat(NearNames.slips(b, a)).isEqualTo(slips);
  }

  @ParameterizedTest
  @CsvSource({
    "kitchen-1, kitchen-1",
    "KITCHEN-2, kitchen-2",
    "poc, Pocket",
    "' pocket ', Pocket",
    "kn, knife a"
  })
  void aNameIsMeantInAnyCaseOrByItsBeginning(String typed, String meant) {
    assertThat(blades.meant(typed)).isEqualTo(meant);
  }

  @Test
  void whatIsUnknownOrOfSeveralIsRefusedWithTheNearOnes() {
    assertThatThrownBy(() -> blades.meant("kitch"))
        .isInstanceOf(NotAccepted.class)
        .hasMessage("blade 'kitch' is the beginning of 'kitchen-1', 'kitchen-2': write more of it");
    assertThatThrownBy(() -> blades.meant("pockte"))
        .hasMessage(
            "blade 'pockte' is not in the journal; did you mean Pocket?; see snick blade list, or add it: snick blade add LABEL");
    assertThatThrownBy(() -> blades.meant("sword"))
        .hasMessage(
            "blade 'sword' is not in the journal; see snick blade list, or add it: snick blade add LABEL");
    assertThatThrownBy(() -> blades.meant(" ")).hasMessageContaining("not in the journal");
  }

  @ParameterizedTest
  @ValueSource(strings = {"kitchn-1", "kichten-2", "kitchen 1", "pocktet", "Kitchen-1", "kitchen"})
  void aNewNameNearAKnownOneIsAskedFor(String typed) {
    assertThatThrownBy(() -> blades.requireNoSlip(typed)).isInstanceOf(SlipOfName.class);
  }

  @ParameterizedTest
  @ValueSource(strings = {"kitchen-3", "kitchen-12", "knife b", "sword", "rocker", "kitchen-1"})
  void numbersAndLettersThatCountUpAreNoSlip(String typed) {
    assertThatCode(() -> blades.requireNoSlip(typed)).doesNotThrowAnyException();
  }
}
