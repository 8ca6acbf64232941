package quadrille.diary.booking;

import java.lang.management.ManagementFactory;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.TreeMap;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.CostTerm;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.VisitCase;

/**
 * Books 1, 20 and 200 invented patients of three visits each over eight weeks with four clinicians,
 * by first fit, by Quadrille, and one patient by CP-SAT, and prints a table. Run it as
 * docs/booking.md says; the seconds are of the machine that it runs on.
 */
public final class BookingBenchmark {

  private BookingBenchmark() {}

  /**
   * @param args seeds; 1 if there are none
   */
  public static void main(String[] args) {
    System.out.println(
        "seed patients way        cost   per patient slivers min  last day  mean days  left  findings"
            + "  seconds");
    for (String seed : args.length == 0 ? new String[] {"1"} : args) {
      for (int patients : new int[] {1, 20, 200}) {
        measure(Long.parseLong(seed), patients);
      }
    }
  }

  /** Nanoseconds of the processor that this thread has had; the search has no other thread. */
  private static long cpu() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  private static void measure(long seed, int patients) {
    BatchCase measured = BatchCase.of(seed, patients);
    Diary diary = measured.diary();
    List<CourseRequest> courses = measured.courses();
    long before = cpu();
    BatchBooker.Booked first = firstFit(diary, courses);
    print(seed, patients, "first fit", diary, courses, first, before);
    before = cpu();
    BatchBooker.Booked inOrder =
        BatchBooker.book(diary, courses, BatchCase.WEIGHTS, BatchCase.FIRST, BatchCase.LAST, 0);
    print(seed, patients, "one by one", diary, courses, inOrder, before);
    before = cpu();
    BatchBooker.Booked all =
        BatchBooker.book(diary, courses, BatchCase.WEIGHTS, BatchCase.FIRST, BatchCase.LAST);
    print(seed, patients, "together", diary, courses, all, before);
    if (patients == 1) {
      before = cpu();
      OptionalLong optimum =
          new Reference(diary, courses.get(0), BatchCase.WEIGHTS)
              .optimum(BatchCase.FIRST, BatchCase.LAST);
      System.out.printf(
          "%4d %8d %-10s %6d  %.2f s%n",
          seed, 1, "CP-SAT", optimum.orElse(-1), (cpu() - before) / 1e9);
    }
  }

  static BatchBooker.Booked firstFit(Diary diary, List<CourseRequest> requests) {
    BookingCase booking =
        new BookingCase(diary, BatchCase.WEIGHTS, BatchCase.FIRST, BatchCase.LAST);
    Occupancy taken = Occupancy.of(booking);
    List<OfferedVisit> visits = new ArrayList<>();
    List<String> left = new ArrayList<>();
    List<CourseRequest> arrived = new ArrayList<>(requests);
    arrived.sort(Comparator.comparing(CourseRequest::asked));
    for (CourseRequest request : arrived) {
      CourseCase course = CourseCase.of(0, booking, request);
      FirstFit.of(course, taken)
          .ifPresentOrElse(
              slots -> {
                visits.addAll(Offers.sought(course, slots));
                for (VisitCase visit : course.visits()) {
                  taken.place(slots.get(visit.place()), visit.minutes(), visit.uses());
                }
              },
              () -> left.add(request.caseName()));
    }
    return new BatchBooker.Booked(visits, left, 0);
  }

  private static void print(
      long seed,
      int patients,
      String way,
      Diary diary,
      List<CourseRequest> courses,
      BatchBooker.Booked booked,
      long before) {
    double seconds = (cpu() - before) / 1e9;
    Diary after = new BatchCase(diary, courses).after(booked.visits());
    Map<CostTerm, Long> terms = BatchCase.terms(diary, courses, booked);
    Map<String, LocalDate> ends = new TreeMap<>();
    for (OfferedVisit visit : booked.visits()) {
      ends.put(visit.caseName(), visit.start().atZone(diary.zone()).toLocalDate());
    }
    LocalDate last = ends.values().stream().max(Comparator.naturalOrder()).orElse(BatchCase.FIRST);
    double mean =
        courses.stream()
            .filter(course -> ends.containsKey(course.caseName()))
            .mapToLong(
                course -> ChronoUnit.DAYS.between(course.asked(), ends.get(course.caseName())))
            .average()
            .orElse(0);
    long cost = terms.values().stream().mapToLong(Long::longValue).sum();
    System.out.printf(
        "%4d %8d %-10s %8d %10.1f %10d %10d %10.1f %5d %9d %8.2f  %s%n",
        seed,
        patients,
        way,
        cost,
        (double) cost / Math.max(1, ends.size()),
        terms.get(CostTerm.SLIVERS) / BatchCase.WEIGHTS.sliverMinute(),
        ChronoUnit.DAYS.between(BatchCase.FIRST, last),
        mean,
        booked.left().size(),
        DiaryAudit.read(after).size(),
        seconds,
        terms);
  }
}
