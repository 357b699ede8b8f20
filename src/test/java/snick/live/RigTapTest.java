package snick.live;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import snick.sample.SampleSink;

class RigTapTest {
  @Test
  void saysOnceThatSamplesAreSetApartAndOnceThatTheyComeBack() {
    List<String> said = new ArrayList<>();
    RigTap tap = new RigTap(said::add);
    SampleSink work = org.mockito.Mockito.mock(SampleSink.class);
    tap.turnTo(work);
    tap.turnTo(work);
    tap.turnBack();
    tap.turnBack();
    assertThat(said).hasSize(2);
    assertThat(said.get(0)).contains("set apart");
    assertThat(said.get(1)).contains("cuts are taken again");
  }
}
