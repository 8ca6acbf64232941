package quadrille.diary.booking;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.diary.audit.DiaryAudit;
import quadrille.mouths.Tries;

/** Twenty patients booked together, beside what CP-SAT found and proved of the same cases. */
@Tag("slow")
final class TogetherAgainstReferenceTest {

  private static final Path FOUND =
      Path.of("src/test/resources/quadrille/diary/booking/together-by-cp-sat.csv");

  /** By how much more than CP-SAT's best the bookings may cost, as a share. */
  private static final double AT_MOST = 0.005;

  /**
   * A row of {@link TogetherReferenceRun}.
   *
   * @param best -1 where CP-SAT found no way in its time
   * @param bound no way costs less
   */
  record Row(long seed, int patients, long best, long bound) {}

  static List<Row> rows() throws IOException {
    return Files.readAllLines(FOUND).stream()
        .filter(line -> line.matches("[0-9].*"))
        .map(line -> List.of(line.split(",")))
        .map(
            row ->
                new Row(
                    Long.parseLong(row.get(0)),
                    Integer.parseInt(row.get(1)),
                    Long.parseLong(row.get(6)),
                    Long.parseLong(row.get(7))))
        .limit(Tries.of(1, 5))
        .toList();
  }

  @ParameterizedTest
  @MethodSource("rows")
  void costsNoLessThanTheBoundAndHardlyMoreThanTheBest(Row row) {
    BatchCase one = BatchCase.of(row.seed(), row.patients());
    BatchBooker.Booked booked =
        BatchBooker.book(
            one.diary(), one.courses(), BatchCase.WEIGHTS, BatchCase.FIRST, one.last());
    assertEquals(List.of(), booked.left());
    assertEquals(List.of(), DiaryAudit.read(one.after(booked.visits())));
    assertTrue(booked.points() >= row.bound(), booked.points() + " beside " + row);
    if (row.best() >= 0) {
      assertTrue(booked.points() <= (1 + AT_MOST) * row.best(), booked.points() + " beside " + row);
    }
  }
}
