package quadrille.diary.booking;

import java.lang.management.ManagementFactory;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
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
 * or more over two years, by first fit, by Quadrille, and one patient by CP-SAT, and prints a
 * table. Run it as docs/booking.md says; the seconds are of the machine that it runs on.
 */
public final class BookingBenchmark {

  private BookingBenchmark() {}

  /**
   * @param all {@code arriving} if they ask all through two years, and not within two weeks; how
   *     many patients, such as 500,2000, and seeds; 1,20,200 and 1 if there are none
   */
  public static void main(String[] all) {
    boolean arriving = all.length > 0 && all[0].equals("arriving");
    String[] args = arriving ? Arrays.copyOfRange(all, 1, all.length) : all;
    System.out.println(
        "seed patients way        cost   per patient slivers min  last day  mean days  left "
            + " findings  seconds");
    List<String> seeds = args.length < 2 ? List.of("1") : List.of(args).subList(1, args.length);
    for (String seed : seeds) {
      for (String patients :
          args.length == 0 ? List.of("1", "20", "200") : List.of(args[0].split(","))) {
        long number = Long.parseLong(seed);
        int many = Integer.parseInt(patients);
        measure(number, arriving ? BatchCase.arriving(number, many) : BatchCase.of(number, many));
      }
    }
  }

  /** Nanoseconds of the processor that this thread has had; the search has no other thread. */
  private static long cpu() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  private static void measure(long seed, BatchCase measured) {
    Diary diary = measured.diary();
    List<CourseRequest> courses = measured.courses();
    long before = cpu();
    BatchBooker.Booked first = firstFit(measured);
    print(seed, "first fit", measured, first, before);
    before = cpu();
    BatchBooker.Booked inOrder =
        BatchBooker.book(diary, courses, BatchCase.WEIGHTS, BatchCase.FIRST, measured.last(), 0);
    print(seed, "one by one", measured, inOrder, before);
    before = cpu();
    BatchBooker.Booked all =
        BatchBooker.book(diary, courses, BatchCase.WEIGHTS, BatchCase.FIRST, measured.last());
    print(seed, "together", measured, all, before);
    if (courses.size() == 1) {
      before = cpu();
      OptionalLong optimum =
          new Reference(diary, courses.get(0), BatchCase.WEIGHTS)
              .optimum(BatchCase.FIRST, measured.last());
      System.out.printf(
          "%4d %8d %-10s %6d  %.2f s%n",
          seed, 1, "CP-SAT", optimum.orElse(-1), (cpu() - before) / 1e9);
    }
  }

  static BatchBooker.Booked firstFit(BatchCase measured) {
    BookingCase booking =
        new BookingCase(measured.diary(), BatchCase.WEIGHTS, BatchCase.FIRST, measured.last());
    Occupancy taken = Occupancy.of(booking);
    List<OfferedVisit> visits = new ArrayList<>();
    List<String> left = new ArrayList<>();
    List<CourseRequest> arrived = new ArrayList<>(measured.courses());
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
      long seed, String way, BatchCase measured, BatchBooker.Booked booked, long before) {
    double seconds = (cpu() - before) / 1e9;
    Diary diary = measured.diary();
    List<CourseRequest> courses = measured.courses();
    Diary after = measured.after(booked.visits());
    Map<CostTerm, Long> terms = measured.terms(booked);
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
        courses.size(),
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
