package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** Every input kept of the fuzz targets, those that once failed among them, on each build. */
class KeptInputsTest {
  @TestFactory
  List<DynamicTest> keptInputs() throws IOException {
    List<DynamicTest> tests = new ArrayList<>();
    for (FuzzTarget target : FuzzTarget.ALL) {
      assertThat(target.kept()).as("inputs kept of " + target).isNotEmpty();
      for (Path input : target.kept()) {
        tests.add(
            DynamicTest.dynamicTest(
                target.name() + " " + input.getFileName(),
                () -> target.trial().of(Files.readAllBytes(input))));
      }
    }
    return tests;
  }
}
