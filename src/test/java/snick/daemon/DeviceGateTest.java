package snick.daemon;

import static org.assertj.core.api.Assertions.assertThat;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.ArgumentMatchers.eq;
import static org.mockito.Mockito.CALLS_REAL_METHODS;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.never;
import static org.mockito.Mockito.times;
import static org.mockito.Mockito.verify;

import org.junit.jupiter.api.Test;
import snick.frame.BatchFixture;
import snick.frame.message.Hello;
import snick.quantity.SampleRate;
import snick.sample.SampleSink;
import snick.sample.SampleStream;

class DeviceGateTest {
  private final SampleSink samples = mock(SampleSink.class, CALLS_REAL_METHODS);
  private final DeviceGate.Listener listener = mock(DeviceGate.Listener.class);
  private final DeviceGate gate =
      new DeviceGate(new SampleStream(new SampleRate(80), samples), listener);

  @Test
  void binarySamplesWaitForAHello() {
    gate.samples(BatchFixture.batch(0, 0, 0, 1));
    gate.flush();
    verify(samples, never()).sample(any(Long.class), any(Integer.class));

    gate.hello(hello(7, 1));
    gate.samples(BatchFixture.batch(1, 12_500, 0, 2));
    gate.flush();

    verify(samples).sample(0, 2);
    verify(listener).admitted(hello(7, 1));
  }

  @Test
  void anotherDeviceOnTheSamePortIsLeftOut() {
    gate.hello(hello(7, 1));
    gate.shut();
    gate.hello(hello(8, 1));
    gate.samples(BatchFixture.batch(0, 0, 0, 1));
    gate.flush();

    verify(listener).stranger(hello(8, 1), 7);
    verify(samples, never()).sample(any(Long.class), any(Integer.class));
    assertThat(gate.passing()).isFalse();
  }

  @Test
  void theSameDeviceIsLetInAgain() {
    gate.hello(hello(7, 1));
    gate.shut();
    gate.hello(hello(7, 1));
    gate.samples(BatchFixture.batch(0, 0, 0, 1));
    gate.flush();

    verify(listener, times(2)).admitted(hello(7, 1));
    verify(samples).sample(any(Long.class), eq(1));
  }

  @Test
  void aNewerProtocolIsSaidAndUsedAsFarAsKnown() {
    gate.hello(hello(7, 2));

    verify(listener).newerProtocol(hello(7, 2));
    assertThat(gate.passing()).isTrue();
  }

  @Test
  void textPassesWithoutAHello() {
    gate.announcement("device", "bench-left");
    gate.reading(5);
    gate.reading(6);
    gate.flush();

    verify(listener, times(1)).textBegan("bench-left");
    verify(samples).sample(0, 5);
    assertThat(gate.passing()).isTrue();
  }

  private static Hello hello(long deviceId, int protocol) {
    return new Hello(protocol, deviceId, "test", 24, 128, 80_000, 20_000_000);
  }
}
