package quadrille.diary.booking;

import static quadrille.diary.booking.RandomDiary.FIRST;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.book.Capability;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.InjectorCall;
import quadrille.diary.book.NeedleTime;
import quadrille.diary.booking.problem.BookingWeights;

/**
 * What it is worth that someone comes in to inject: 20 and 200 invented patients of three visits
 * with injections, four clinicians, of whom one or two may inject. Arguments: seeds.
 */
public final class InjectorBenchmark {

  private static final List<NeedleTime> NEEDLES =
      List.of(new NeedleTime(5, 21), new NeedleTime(30, 43));

  private InjectorBenchmark() {}

  public static void main(String[] seeds) {
    System.out.println(
        "| patients | seed | may inject | needles | patients booked | visits | points a patient"
            + " | injector minutes | audit |");
    for (int patients : new int[] {20, 200}) {
      for (String seed : seeds) {
        for (int may = 1; may <= 2; may++) {
          run(patients, Long.parseLong(seed), may, List.of(), "whole visit");
          run(patients, Long.parseLong(seed), may, NEEDLES, "another comes in");
        }
      }
    }
  }

  private static void run(int patients, long seed, int may, List<NeedleTime> needles, String how) {
    RandomDiary random = new RandomDiary(seed);
    int days = patients == 20 ? 21 : 56;
    LocalDate last = FIRST.plusDays(days - 1);
    Diary diary = random.diary(4, 4, 10, days, 0.1, 4);
    List<Clinician> people = new ArrayList<>();
    for (Clinician one : diary.clinicians()) {
      people.add(one.withMay(people.size() < may ? List.of(Capability.INJECT) : List.of()));
    }
    diary = diary.withClinicians(people);
    List<CourseRequest> courses = new ArrayList<>();
    for (int i = 0; i < patients; i++) {
      CourseRequest course = random.course("P-" + i, 3, diary, FIRST, 3, 10);
      courses.add(
          course.withVisits(
              course.visits().stream()
                  .map(one -> one.withNeeds(List.of(Capability.INJECT)).withNeedles(needles))
                  .map(one -> one.withMinutes(Math.max(50, one.minutes())))
                  .toList()));
    }
    BatchBooker.Booked booked =
        BatchBooker.book(diary, courses, BookingWeights.defaults(), FIRST, last);
    for (CourseRequest course : courses) {
      diary = Taking.asking(diary, course);
    }
    int minutes =
        booked.visits().stream()
            .flatMap(visit -> visit.injectors().stream())
            .mapToInt(InjectorCall::minutes)
            .sum();
    int found = DiaryAudit.read(Taking.booked(diary, booked.visits())).size();
    int placed = patients - booked.left().size();
    System.out.printf(
        Locale.ROOT,
        "| %d | %d | %d of 4 | %s | %d | %d | %d | %d | %d |%n",
        patients,
        seed,
        may,
        how,
        placed,
        booked.visits().size(),
        placed == 0 ? 0 : booked.points() / placed,
        minutes,
        found);
  }
}
