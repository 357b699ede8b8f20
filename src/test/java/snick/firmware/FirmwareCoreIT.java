package snick.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The portable core, built for this machine with address and undefined-behaviour sanitizers. */
@NeedsTools({Tool.GCC, Tool.MAKE})
@Timeout(120)
class FirmwareCoreIT {
  @Test
  void keepsItsPromisesAndSendsTheDocumentsExamples() throws Exception {
    assertThat(Make.REFERENCE.run("test")).contains("32 core tests passed");
  }

  @Test
  void survivesGarbage() throws Exception {
    assertThat(Make.REFERENCE.run("fuzz")).containsPattern("300000 steps, \\d{5,} frames");
  }
}
