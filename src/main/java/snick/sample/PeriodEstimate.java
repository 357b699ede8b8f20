package snick.sample;

/**
 * Time from sample to sample as measured on the device's clock. Follows the observed steps with an
 * exponential mean; steps far from the present value (missing samples) do not move it, until most
 * steps are far from it: then it was wrong.
 */
final class PeriodEstimate {
  private static final int STEPS_TO_SETTLE = 63;
  private static final double SHARE_OF_NEW = 1.0 / (STEPS_TO_SETTLE + 1);

  /** A step counts as one period when it is within this factor of it. */
  private static final double NEAR = 1.6;

  /** So many far steps in a row of like length mean that the period itself is another. */
  private static final int FAR_STEPS_TO_YIELD = 8;

  private double nanos;
  private long observed;
  private int farSteps;
  private double farNanos;

  PeriodEstimate(double nominalNanos) {
    this.nanos = nominalNanos;
  }

  double nanos() {
    return nanos;
  }

  /** Someone says what the period should be; measured steps have precedence later. */
  void nominal(double nominalNanos) {
    nanos = nominalNanos;
    observed = 0;
    farSteps = 0;
  }

  /** One step between neighbouring samples, ns. */
  void observe(long stepNanos) {
    if (stepNanos <= 0) {
      return;
    }
    if (near(stepNanos, nanos)) {
      follow(stepNanos);
    } else {
      doubt(stepNanos);
    }
  }

  private void follow(long stepNanos) {
    observed++;
    farSteps = 0;
    nanos +=
        (stepNanos - nanos) * (observed < STEPS_TO_SETTLE ? 1.0 / (observed + 1) : SHARE_OF_NEW);
  }

  private void doubt(long stepNanos) {
    farSteps = farSteps > 0 && near(stepNanos, farNanos) ? farSteps + 1 : 1;
    farNanos = stepNanos;
    if (farSteps >= FAR_STEPS_TO_YIELD || (observed == 0 && farSteps >= 2)) {
      nominal(stepNanos);
    }
  }

  /** Samples missing inside a step of {@code stepNanos}, by whole periods; 0 until measured. */
  long missing(long stepNanos) {
    if (observed < FAR_STEPS_TO_YIELD || stepNanos < NEAR * nanos) {
      return 0;
    }
    if (farStepsLikeThis(stepNanos) >= FAR_STEPS_TO_YIELD) {
      nominal(stepNanos);
      return 0;
    }
    return Math.max(0, Math.round(stepNanos / nanos) - 1);
  }

  /** Whether a step is so short that its reading was made before it was stamped. */
  boolean isLate(long stepNanos) {
    return stepNanos * NEAR < nanos;
  }

  private int farStepsLikeThis(long stepNanos) {
    farSteps = farSteps > 0 && near(stepNanos, farNanos) ? farSteps + 1 : 1;
    farNanos = stepNanos;
    return farSteps;
  }

  private static boolean near(double aNanos, double bNanos) {
    return aNanos < NEAR * bNanos && bNanos < NEAR * aNanos;
  }
}
