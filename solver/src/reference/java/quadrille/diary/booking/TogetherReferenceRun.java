package quadrille.diary.booking;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.booking.problem.CostTerm;

/**
 * Lets CP-SAT seek the cheapest bookings of the benchmark's cases and writes what it finds beside
 * what first fit and Quadrille cost. Cases that stand in the file already are left out, so that a
 * run that was cut short goes on where it ended.
 */
public final class TogetherReferenceRun {
  private static final String HEAD =
      """
      # Many patients booked together, sought by CP-SAT: OR-Tools 9.14, %s s and %s workers a case. Made with
      # mvn -o -q -Pbenchmark -pl solver test-compile dependency:build-classpath -Dmdep.outputFile=target/cp
      # java -cp solver/target/test-classes:solver/target/classes:$(cat solver/target/cp) \\
      #   quadrille.diary.booking.TogetherReferenceRun FILE %s %s PATIENTS SEED...
      # Points; no way costs less than the bound. Listing the legal slots is not in the seconds.
      seed,patients,first fit,together,status,slots,best,bound,wall seconds
      """;

  private TogetherReferenceRun() {}

  /**
   * @param args the file, seconds a case, workers, patients a case, and seeds
   */
  public static void main(String[] args) throws IOException {
    Path file = Path.of(args[0]);
    double seconds = Double.parseDouble(args[1]);
    int workers = Integer.parseInt(args[2]);
    if (!Files.exists(file)) {
      Files.writeString(file, String.format(Locale.ROOT, HEAD, args[1], args[2], args[1], args[2]));
    }
    Set<String> done =
        Files.readAllLines(file).stream()
            .map(line -> List.of(line.split(",")))
            .filter(row -> row.size() > 2)
            .map(row -> row.get(0) + "," + row.get(1))
            .collect(Collectors.toSet());
    for (String seed : List.of(args).subList(4, args.length)) {
      if (!done.contains(seed + "," + args[3])) {
        String line = line(Long.parseLong(seed), Integer.parseInt(args[3]), seconds, workers);
        Files.writeString(file, line, StandardOpenOption.APPEND);
        System.out.print(line);
      }
    }
  }

  private static String line(long seed, int patients, double seconds, int workers) {
    BatchCase one = BatchCase.of(seed, patients);
    BatchBooker.Booked firstFit = BookingBenchmark.firstFit(one);
    BatchBooker.Booked together =
        BatchBooker.book(
            one.diary(), one.courses(), BatchCase.WEIGHTS, BatchCase.FIRST, one.last());
    if (!firstFit.left().isEmpty() || !together.left().isEmpty()) {
      throw new IllegalStateException("Somebody has no place, so points cannot be compared.");
    }
    TogetherReference.Outcome outcome =
        new TogetherReference(
                one.diary(), one.courses(), BatchCase.WEIGHTS, BatchCase.FIRST, one.last())
            .solve(together.points(), seconds, workers);
    if (outcome.best() >= 0) {
      long again = points(one, new BatchBooker.Booked(outcome.visits(), List.of(), 0));
      if (again != outcome.best() || !DiaryAudit.read(one.after(outcome.visits())).isEmpty()) {
        throw new IllegalStateException("CP-SAT's bookings cost " + again + ", or break a rule.");
      }
    }
    return String.format(
        Locale.ROOT,
        "%d,%d,%d,%d,%s,%d,%d,%d,%.1f%n",
        seed,
        patients,
        points(one, firstFit),
        together.points(),
        outcome.status(),
        outcome.slots(),
        outcome.best(),
        Math.min(outcome.bound(), together.points()),
        outcome.wall());
  }

  private static long points(BatchCase one, BatchBooker.Booked booked) {
    Map<CostTerm, Long> terms = one.terms(booked);
    return terms.values().stream().mapToLong(Long::longValue).sum();
  }
}
