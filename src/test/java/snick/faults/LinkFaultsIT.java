package snick.faults;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/**
 * See {@link LinkFaults} and {@link AbsentRig}: the shipped jar on pseudo-terminals and network
 * bridges.
 */
class LinkFaultsIT {
  @TempDir Path folder;

  @TestFactory
  List<DynamicTest> faultsOfTheLink() {
    return new Together(folder)
        .play(
            "silence, garbage, reset, newer firmware",
            f -> new LinkFaults(f).silenceGarbageResetAndNewerFirmwareAreSaidAndOutlived())
        .play(
            "unplugged in a cut, back under another name",
            f -> new LinkFaults(f).unpluggedInACutAndBackUnderAnotherName())
        .play("another device", f -> new LinkFaults(f).anotherDeviceIsLeftOut())
        .play("two rigs swapped", f -> new LinkFaults(f).twoRigsSwappedAreBothNoticed())
        .play("flood of garbage", f -> new LinkFaults(f).aFloodOfGarbageDrownsNothing())
        .play("heard at 9600", f -> new LinkFaults(f).aWrongRateIsAskedAbout(9600))
        .play("heard at 57600", f -> new LinkFaults(f).aWrongRateIsAskedAbout(57_600))
        .play("heard at 230400", f -> new LinkFaults(f).aWrongRateIsAskedAbout(230_400))
        .play("not plugged in yet", f -> new AbsentRig(f).isRecordedAsSoonAsItComes())
        .play("one of two not there yet", f -> new AbsentRig(f).doesNotKeepTheOthersWaiting())
        .play("given up", f -> new AbsentRig(f).canBeGivenUp())
        .play("no use", f -> new AbsentRig(f).isRefusedWhereWaitingIsNotAskedOrNoUse())
        .play("kept by another", f -> new AbsentRig(f).isRefusedIfAnotherProgramKeepsIt())
        .tests();
  }
}
