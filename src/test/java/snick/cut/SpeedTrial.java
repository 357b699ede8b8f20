package snick.cut;
import snick.cut.estimate.*;
final class SpeedTrial {
  public static void main(String[] a) {
    StrangersRig rig = new StrangersRig(Long.parseLong(a[0])).record(100, 1.5, 2);
    System.out.println(rig);
    Loading[] l = new Loading[100];
    for (int i = 0; i < 100; i++) l[i] = OracleTrial.loading(rig, i);
    snick.cut.estimate.BreakEstimator e = new snick.cut.estimate.BreakEstimator();
    double sum = 0;
    for (int r = 0; r < 30; r++) {
      long t0 = java.lang.management.ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
      for (Loading x : l) sum += e.estimate(x).forceCounts();
      if (r < 3 || r % 9 == 0) System.out.printf("pass %d: %.0f us a cut%n", r, (java.lang.management.ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - t0) / 1e5);
    }
    System.out.println(sum);
  }
}
