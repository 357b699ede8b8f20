package snick.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.CompletableFuture;
import snick.frame.message.Status;
import snick.store.StoreReader;
import snick.store.record.CutSelection;
import snick.virtualrig.Fault;
import snick.virtualrig.FaultyRig;
import snick.virtualrig.VirtualRig;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;
import snick.virtualrig.settings.Altered;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.settings.TextForm;

/**
 * Whatever happens between rig and host: it is said, nothing false is stored, recording goes on.
 */
final class LinkFaults {
  private static final double SPEED = 5;
  private static final Script CUT =
      Script.of(new Action.Rest(3), Action.Cut.ofGramForce(100, 150), new Action.Rest(1));

  private final Path folder;

  LinkFaults(Path folder) {
    this.folder = folder;
  }

  private FaultyRig rig(String link, long seed, long deviceId, double speed) throws Exception {
    RigSettings usual = RigSettings.USUAL;
    return FaultyRig.serve(
        new VirtualRig(usual.with(Altered.withDeviceId(usual.device(), deviceId)), seed),
        folder.resolve(link),
        speed);
  }

  private Running record(String... ports) throws Exception {
    String[] words = new String[ports.length + 6];
    words[0] = "run";
    System.arraycopy(ports, 0, words, 1, ports.length);
    List<String> options = List.of("--http", "0", "--json", "--data", data().toString());
    for (int i = 0; i < options.size(); i++) {
      words[1 + ports.length + i] = options.get(i);
    }
    return Running.snick(folder, words);
  }

  private Path data() {
    return folder.resolve("data");
  }

  private List<String> outcomes() {
    try (StoreReader reader = StoreReader.open(data())) {
      return reader.latest(CutSelection.all(), 100).stream()
          .map(cut -> cut.figures().outcome().word())
          .toList();
    }
  }

  /** Out in the middle of a loading, and back under another terminal. */
  void unpluggedInACutAndBackUnderAnotherName() throws Exception {
    try (FaultyRig rig = rig("rig", 1, 7, 2);
        Running run = record(rig.port())) {
      run.await("the page is ");
      Path before = Files.readSymbolicLink(Path.of(rig.port()));
      CompletableFuture<Void> slow =
          rig.perform(Script.of(new Action.Rest(3), Action.Cut.ofGramForce(2000, 200)));
      long loading = rig.sent().samples() + 5 * 80;
      Instants.await("the loading", () -> rig.sent().samples() > loading);
      assertThat(slow).isNotDone();
      rig.inject(new Fault.HangUp(2));
      run.await("went away");
      try (FaultyRig squatter = rig("other", 2, 8, 1)) {
        run.await("is back");
        assertThat(Files.readSymbolicLink(Path.of(rig.port()))).isNotEqualTo(before);
        assertThat(squatter.ended()).isNotDone();
      }
      Instants.await("the slow cut is over", slow::isDone);
      rig.perform(CUT).join();
      run.await("\"severed\"");
      run.terminate();
    }
    assertThat(outcomes()).startsWith("severed").endsWith("truncated");
  }

  /** One after the other on one rig: a good cut after each. */
  void silenceGarbageResetAndNewerFirmwareAreSaidAndOutlived() throws Exception {
    try (FaultyRig rig = rig("rig", 3, 7, SPEED);
        Running run = record(rig.port())) {
      String page = PageEvents.address(run.await("the page is "));
      rig.perform(CUT).join();
      run.awaitCut(1);
      rig.inject(new Fault.Silence(5 * SPEED));
      run.await("is silent");
      assertThat(PageEvents.get(page + "/health")).contains("\"link\":\"silent\"");
      rig.perform(new Action.Rest(5 * SPEED)).join();
      rig.perform(CUT).join();
      run.awaitCut(2);
      rig.inject(new Fault.Babble(5 * SPEED));
      run.await("sends bytes but no readings that are understood");
      assertThat(PageEvents.get(page + "/health")).contains("\"kind\":\"not understood\"");
      rig.perform(new Action.Rest(5 * SPEED)).join();
      rig.perform(CUT).join();
      run.awaitCut(3);
      rig.inject(new Fault.Reset(Status.ResetCause.BROWN_OUT, true));
      rig.perform(CUT).join();
      run.awaitCut(4);
      assertThat(PageEvents.get(page + "/health"))
          .contains("\"restarts\":1")
          .contains("\"kind\":\"device restarted\"");
      rig.inject(new Fault.NewerProtocol(2));
      run.await("speaks protocol version 2, this program 1");
      rig.perform(CUT).join();
      run.awaitCut(5);
      run.terminate();
    }
    assertThat(outcomes()).hasSize(5).containsOnly("severed");
  }

  /** A device that answers with another id, on one port; its cuts are not taken for the first's. */
  void anotherDeviceIsLeftOut() throws Exception {
    try (FaultyRig rig = rig("rig", 4, 7, SPEED);
        Running run = record(rig.port())) {
      run.await("the page is ");
      rig.perform(CUT).join();
      run.awaitCut(1);
      rig.inject(new Fault.AnotherDevice(9));
      run.await("answers as device 0000000000000009, not 0000000000000007");
      rig.perform(CUT).join();
      rig.inject(new Fault.AnotherDevice(7));
      rig.perform(new Action.Rest(10)).join();
      rig.perform(CUT).join();
      run.awaitCut(2);
      run.terminate();
    }
    assertThat(outcomes()).containsExactly("severed", "severed");
  }

  /** Two rigs on one recorder, their cables exchanged: neither's cuts go to the other. */
  void twoRigsSwappedAreBothNoticed() throws Exception {
    FaultyRig one = rig("a", 5, 1, SPEED);
    FaultyRig two = rig("b", 6, 2, SPEED);
    try (Running run = record(one.port(), two.port())) {
      run.await("the page is ");
      CompletableFuture.allOf(one.perform(CUT), two.perform(CUT)).join();
      run.awaitCut(2);
      one.close();
      two.close();
      try (FaultyRig twoOnA = rig("a", 7, 2, SPEED);
          FaultyRig oneOnB = rig("b", 8, 1, SPEED)) {
        run.await(folder.resolve("a") + " answers as device 0000000000000002");
        run.await(folder.resolve("b") + " answers as device 0000000000000001");
        CompletableFuture.allOf(twoOnA.perform(CUT), oneOnB.perform(CUT)).join();
        run.terminate();
      }
    } finally {
      one.close();
      two.close();
    }
    assertThat(outcomes()).hasSize(2);
  }

  /** Garbage as fast as the machine can send it, then a rig: its cuts are found all the same. */
  void aFloodOfGarbageDrownsNothing() throws Exception {
    byte[] noise = new byte[1 << 16];
    new SplittableRandom(10).nextBytes(noise);
    try (ByteServer server = ByteServer.start(noise, 400, Streams.twoCuts());
        Running run = record(server.port())) {
      run.awaitCut(2);
      run.terminate();
    }
    assertThat(outcomes()).containsExactly("severed", "severed");
  }

  /** Nothing that was sent at another rate is taken for a reading; the person is asked. */
  void aWrongRateIsAskedAbout(int heardBitsPerSecond) throws Exception {
    TextForm form = new TextForm(true, true, 0, false);
    byte[] text = Streams.of(u -> u.with(u.device().withText(form)), CUT.actions().get(1));
    byte[] both = new byte[text.length + Streams.twoCuts().length];
    System.arraycopy(Streams.twoCuts(), 0, both, 0, Streams.twoCuts().length);
    System.arraycopy(text, 0, both, Streams.twoCuts().length, text.length);
    byte[] heard = WrongRate.heard(both, 115_200, heardBitsPerSecond);
    try (ByteServer server = ByteServer.dripping(heard);
        Running run = record(server.port())) {
      run.await("is the bit rate right (--baud)");
      run.terminate();
    }
    assertThat(outcomes()).isEmpty();
  }
}
