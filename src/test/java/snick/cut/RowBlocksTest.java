package snick.cut;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Products beside those of a library's matrices. */
class RowBlocksTest {
  private final Random random = new Random(3);

  private double[] drawn(int size) {
    double[] drawn = new double[size];
    Arrays.setAll(drawn, i -> random.nextGaussian());
    return drawn;
  }

  @ParameterizedTest
  @CsvSource({"1, 1", "3, 5", "7, 17", "8, 8", "9, 9", "81, 22"})
  void addsTheProduct(int rows, int columns) {
    double[] matrix = drawn(rows * columns);
    double[] x = drawn(2 + columns);
    double[] sums = drawn(RowBlocks.sums(rows));
    DMatrixRMaj expected = new DMatrixRMaj(rows, 1, true, Arrays.copyOf(sums, rows));
    CommonOps_DDRM.multAdd(
        new DMatrixRMaj(rows, columns, true, matrix),
        new DMatrixRMaj(columns, 1, true, Arrays.copyOfRange(x, 2, 2 + columns)),
        expected);
    RowBlocks.of(matrix, columns).add(x, 2, sums);
    for (int i = 0; i < rows; i++) {
      assertThat(sums[i]).isCloseTo(expected.get(i), within(1e-12));
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 6, 8, 20})
  void squareIsThatOfTheTriangleUnlessItPassesTheLimit(int size) {
    double[] matrix = drawn(size * size);
    double[] x = drawn(size);
    double square = 0;
    for (int i = 0; i < size; i++) {
      double sum = 0;
      for (int j = 0; j <= i; j++) {
        sum += matrix[i * size + j] * x[j];
      }
      square += sum * sum;
    }
    RowBlocks lower = RowBlocks.lower(matrix, size);
    assertThat(lower.squareOfLower(x, 0, Double.POSITIVE_INFINITY))
        .isCloseTo(square, within(1e-12 * square));
    assertThat(lower.squareOfLower(x, 0, 0.3 * square))
        .isBetween(0.3 * square, square * (1 + 1e-12));
    assertThat(lower.squareOfLower(x, 0, -1)).isZero();
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 2, 6})
  void columnsAreSetAndMultiplied(int from) {
    double[] matrix = drawn(7 * 3);
    double[] x = drawn(7);
    RowBlocks blocks = new RowBlocks(7, 4);
    blocks.setColumn(3, RowBlocks.of(matrix, 3), 1);
    double sum = 0;
    for (int i = from; i < 7; i++) {
      sum += matrix[3 * i + 1] * x[i];
    }
    assertThat(blocks.columnTimes(3, x, from)).isCloseTo(sum, within(1e-12));
  }
}
