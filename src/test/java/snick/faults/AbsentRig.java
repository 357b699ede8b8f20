package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.virtualrig.ServedRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.RigSettings;

/** A rig that is not plugged in yet: waited for if that is asked, said once. */
final class AbsentRig {
  private static final String WAITING = "waiting for the rig: ";
  private static final double SPEED = 5;
  private static final int REFUSED = 5;

  /** 128 + SIGTERM: how Java says that it was asked to stop, while recording as well. */
  private static final int STOPPED = 143;

  private static final Script CUT =
      Script.of(new Action.Rest(3), Action.Cut.ofGramForce(100, 150), new Action.Rest(1));

  private final Path folder;

  AbsentRig(Path folder) {
    this.folder = folder;
  }

  private ServedRig plugIn(Path link, long deviceId) throws Exception {
    RigSettings usual = RigSettings.USUAL;
    return new VirtualRig(usual.with(Altered.withDeviceId(usual.device(), deviceId)), deviceId)
        .serve(link, Pacer.of(System::nanoTime, SPEED), VirtualRig.WhenFull.DROP, truth -> {});
  }

  private Path port(String name) {
    return folder.resolve(name);
  }

  private Running run(String... words) throws Exception {
    List<String> all = new ArrayList<>(List.of("run", "--json", "--http", "0"));
    all.addAll(List.of("--data", folder.resolve("data").toString()));
    all.addAll(List.of(words));
    return Running.snick(folder, all.toArray(String[]::new));
  }

  private int stored() {
    try (StoreReader reader = StoreReader.open(folder.resolve("data"))) {
      return reader.latest(CutSelection.all(), 100).size();
    }
  }

  /** Started before it is plugged in: said once, seen in the health, recorded when it comes. */
  void isRecordedAsSoonAsItComes() throws Exception {
    try (Running run = run("--wait", port("rig").toString())) {
      String page = PageEvents.address(run.await("the page is "));
      assertThat(run.await(WAITING)).contains(port("rig") + " is not there; plug the rig in");
      assertThat(PageEvents.get(page + "/health"))
          .contains("\"recording\":false")
          .contains("\"link\":\"awaiting_rig\"")
          .contains("\"kind\":\"waiting for the rig\"");
      Instants.pass(1000);
      try (ServedRig rig = plugIn(port("rig"), 7)) {
        run.await(port("rig") + " is there");
        rig.perform(CUT).join();
        run.awaitCut(1);
        assertThat(PageEvents.get(page + "/health"))
            .contains("\"recording\":true")
            .contains("\"link\":\"recording\"");
      }
      assertThat(run.terminate()).isEqualTo(STOPPED);
      assertThat(run.lines()).filteredOn(line -> line.contains(WAITING)).hasSize(1);
    }
    assertThat(stored()).isEqualTo(1);
  }

  /** Those that are there are recorded meanwhile. */
  void doesNotKeepTheOthersWaiting() throws Exception {
    try (ServedRig here = plugIn(port("here"), 1);
        Running run = run("--wait", port("later").toString(), here.port())) {
      run.await(WAITING + port("later"));
      run.await("no calibration for rig");
      here.perform(CUT).join();
      run.awaitCut(1);
      try (ServedRig later = plugIn(port("later"), 2)) {
        run.await(port("later") + " is there");
        later.perform(CUT).join();
        run.awaitCut(2);
      }
      run.terminate();
    }
    assertThat(stored()).isEqualTo(2);
  }

  /** Stopped while it waits: ends at once and as orderly as while it records. */
  void canBeGivenUp() throws Exception {
    try (Running run = run("--wait", port("rig").toString(), "tcp://127.0.0.1:1", "no such name")) {
      run.await(WAITING + port("rig"));
      run.await(WAITING + "tcp://127.0.0.1:1 does not answer");
      run.await(WAITING + "no file, serial port or rig has 'no such name'");
      assertThat(run.terminate()).isEqualTo(STOPPED);
      assertThat(run.lines()).last().asString().contains("everything announced is stored");
    }
  }

  /** Without the option, and where waiting is of no use, it is refused at once. */
  void isRefusedWhereWaitingIsNotAskedOrNoUse() throws Exception {
    try (Running run = run(port("rig").toString())) {
      assertThat(run.over()).isEqualTo(REFUSED);
      assertThat(run.lines()).anyMatch(line -> line.contains(port("rig") + " is not there"));
    }
    try (Running run = run("--wait", "/dev/null")) {
      assertThat(run.over()).isEqualTo(REFUSED);
      assertThat(run.lines()).anyMatch(line -> line.contains("/dev/null is not a serial port"));
    }
  }

  /** Another program has the port: time enough for a probe to end, then it is said. */
  void isRefusedIfAnotherProgramKeepsIt() throws Exception {
    try (ServedRig rig = plugIn(port("rig"), 7);
        Running holder =
            Running.snick(folder, "capture", rig.port(), port("a.capture").toString())) {
      Instants.await("the capture", () -> port("a.capture").toFile().length() > 0);
      try (Running run = run("--wait", rig.port())) {
        assertThat(run.over()).isEqualTo(REFUSED);
        assertThat(run.lines()).anyMatch(line -> line.contains("in use by another program"));
      }
      assertThat(holder.alive()).isTrue();
    }
  }
}
