package snick.virtualrig.bench;

import java.util.OptionalDouble;
import snick.virtualrig.settings.FixtureSettings;

/** The thread of a hanging mass is cut. */
final class ThreadCutting implements LoadCourse {
  private final double gramForce;
  private final ForceAfterBreak fall;
  private double seconds;

  ThreadCutting(FixtureSettings fixture, double gramForce) {
    this.gramForce = gramForce;
    this.fall = ForceAfterBreak.of(fixture, gramForce);
  }

  @Override
  public double advance(double stepSeconds, Witness witness) {
    if (seconds == 0) {
      witness.ended(TrueCut.Kind.THREAD_CUT, gramForce, 0, 0, OptionalDouble.empty());
    }
    double mean = fall.meanGramForce(seconds, seconds + stepSeconds);
    seconds += stepSeconds;
    return mean;
  }

  @Override
  public boolean over() {
    return fall.over(seconds);
  }
}
