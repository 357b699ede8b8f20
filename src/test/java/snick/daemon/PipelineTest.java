package snick.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snick.cut.Cut;
import snick.port.PortAddress;
import snick.port.Ports;
import snick.port.RecordedSource;

/** However the bytes are cut into pieces on their way, the cuts are the same to the last bit. */
class PipelineTest {
  @ParameterizedTest
  @CsvSource({
    "kitchen-knife.capture, 1",
    "kitchen-knife.capture, 7",
    "kitchen-knife.capture, 4096",
    "what-goes-wrong.capture, 1",
    "what-goes-wrong.capture, 13",
    "as-found.txt, 1",
    "as-found.txt, 29",
    "gram-force.txt, 3"
  })
  void aReplayGivesTheIdenticalCuts(String name, int pieceBytes) throws IOException {
    byte[] bytes = bytes(Path.of("demo-data", name));

    List<Cut> whole = cuts(bytes, bytes.length);
    List<Cut> pieces = cuts(bytes, pieceBytes);

    assertThat(whole).isNotEmpty();
    assertThat(pieces).isEqualTo(whole);
  }

  private static List<Cut> cuts(byte[] bytes, int pieceBytes) {
    List<Cut> cuts = new ArrayList<>();
    Pipeline pipeline = new Pipeline(Pipeline.Settings.defaults(), cuts::add);
    for (int from = 0; from < bytes.length; from += pieceBytes) {
      byte[] piece = Arrays.copyOfRange(bytes, from, Math.min(bytes.length, from + pieceBytes));
      pipeline.accept(piece, piece.length);
    }
    pipeline.end();
    return cuts;
  }

  private static byte[] bytes(Path file) throws IOException {
    byte[] all = new byte[(int) Files.size(file)];
    byte[] buffer = new byte[1000];
    int length = 0;
    try (RecordedSource source =
        (RecordedSource) new Ports(115_200).open(PortAddress.parse(file.toString()))) {
      while (!source.ended()) {
        int count = source.read(buffer);
        System.arraycopy(buffer, 0, all, length, count);
        length += count;
      }
    }
    return Arrays.copyOf(all, length);
  }
}
