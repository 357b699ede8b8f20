package snick.faults;

import java.io.ByteArrayOutputStream;
import java.util.function.UnaryOperator;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.RigSettings;

/** Bytes of the virtual rig, without a port. */
final class Streams {
  private static final long SEED = 11;

  private Streams() {}

  /**
   * Cuts for hours, six after each other and then some rest: a detector that began in a loading
   * takes a few seconds of rest to know what rest is.
   */
  static Script cutsForHours() {
    return Script.of(new Action.Rest(1), Action.Cut.ofGramForce(60, 300))
        .times(6)
        .then(new Action.Rest(5))
        .times(3000);
  }

  /** Three cuts after a rest, and a rest in which the last one is told. */
  static Script threeCuts() {
    Script cuts = Script.of(new Action.Rest(1), Action.Cut.ofGramForce(60, 300)).times(3);
    return Script.of(new Action.Rest(5)).then(cuts).then(new Action.Rest(2));
  }

  /** Two cuts in binary. */
  static byte[] twoCuts() {
    return of(
        usual -> usual,
        new Action.Rest(2),
        Action.Cut.ofGramForce(100, 200),
        new Action.Rest(2),
        Action.Cut.ofGramForce(120, 200),
        new Action.Rest(1));
  }

  /** What a rig sends while {@code actions} happen. */
  static byte[] of(UnaryOperator<RigSettings> change, Action... actions) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    new VirtualRig(change.apply(RigSettings.USUAL), SEED)
        .render(
            Script.of(actions), (nanos, part, length) -> bytes.write(part, 0, length), truth -> {});
    return bytes.toByteArray();
  }
}
