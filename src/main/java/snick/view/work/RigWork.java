package snick.view.work;

import java.time.Duration;
import java.util.Map;
import snick.sample.SampleSink;

/**
 * Work at one rig, for which its samples are set apart. Samples come on the rig's thread, the rest
 * on any.
 */
public interface RigWork extends SampleSink {
  /** How far it has come. */
  Map<String, Object> json();

  /** The person says that what was asked for is done. */
  void confirm();

  /** Keeps what must outlast the program, and ends when all is there. The board's thread. */
  void follow();

  /** Whether it needs no further sample. */
  boolean done();

  /**
   * Whether a mass may hang when it is done: samples then stay apart until the person closes it.
   */
  boolean leavesMass();

  /** How long it waits for the person, if nothing longer is asked of the rig meanwhile. */
  default Duration patience() {
    return Duration.ofMinutes(10);
  }
}
