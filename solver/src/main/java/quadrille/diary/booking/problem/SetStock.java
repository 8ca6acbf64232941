package quadrille.diary.booking.problem;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import java.util.Set;
import java.util.stream.Collectors;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.SterileStock.SterileSet;

/**
 * A counted set on one day, and what uses it then beside the visits of the courses sought for.
 *
 * @param set place in the stock
 * @param day number of the day
 * @param from its first minute
 * @param to the first minute after it
 * @param count owned
 * @param reprocessing minutes
 * @param others times of that day, or that reach into it, at which others have it out, already with
 *     reprocessing
 */
public record SetStock(
    int set, int day, int from, int to, int count, int reprocessing, List<Out> others) {

  /**
   * Sets that are out.
   *
   * @param from first minute
   * @param back first minute in which they are back
   */
  record Out(int from, int back, int number) {}

  public SetStock {
    others = List.copyOf(others);
  }

  /**
   * Each set of a diary's stock on each day.
   *
   * @param courses whose bookings are not others'
   */
  public static List<SetStock> of(BookingCase booking, List<CourseCase> courses) {
    Set<String> own =
        courses.stream().map(course -> course.request().caseName()).collect(Collectors.toSet());
    TimeLine time = booking.time();
    int reprocessing = booking.diary().stock().reprocessingMinutes();
    List<SetStock> stocks = new ArrayList<>();
    int place = 0;
    for (SterileSet set : booking.diary().stock().sets()) {
      List<List<Out>> others = new ArrayList<>();
      for (int day = 0; day < time.days(); day++) {
        others.add(new ArrayList<>());
      }
      for (Booking one : booking.diary().bookings()) {
        int number = booking.uses(one.sets()).of(place);
        if (one.status().takesTime() && number > 0 && !own.contains(one.caseName())) {
          int start = time.minute(one.start());
          enter(others, time, new Out(start, start + one.minutes() + reprocessing, number));
        }
      }
      for (BusyTime busy : booking.busyWithSets()) {
        int number = booking.uses(busy.sets()).of(place);
        if (number > 0) {
          int start = time.minute(busy.time().start());
          int end = time.minuteUp(busy.time().end());
          enter(others, time, new Out(start, end + reprocessing, number));
        }
      }
      for (int day = 0; day < time.days(); day++) {
        stocks.add(
            new SetStock(
                place,
                day,
                time.dayStart(day),
                time.dayStart(day + 1),
                set.count(),
                reprocessing,
                others.get(day)));
      }
      place++;
    }
    return stocks;
  }

  private static void enter(List<List<Out>> others, TimeLine time, Out out) {
    if (out.back() > 0 && out.from() < time.length()) {
      int last = time.day(Math.min(out.back(), time.length()) - 1);
      for (int day = time.day(Math.max(0, out.from())); day <= last; day++) {
        others.get(day).add(out);
      }
    }
  }

  /**
   * At each start of the day at which this set is taken, how many are too many because of visits
   * that are being booked; what stood too many before is left alone.
   *
   * @param visits that have the set out on this day
   */
  public long tooMany(List<? extends Commitment> visits) {
    List<Out> standing = new ArrayList<>(others);
    List<Out> all = new ArrayList<>(others);
    for (Commitment visit : visits) {
      Out out = new Out(visit.start(), visit.end() + reprocessing, visit.visit().uses().of(set));
      all.add(out);
      if (visit.pinned()) {
        standing.add(out);
      }
    }
    return excess(all) - excess(standing);
  }

  private long excess(List<Out> outs) {
    outs.sort(Comparator.comparingInt(Out::from));
    long excess = 0;
    PriorityQueue<Out> back = new PriorityQueue<>(Comparator.comparingInt(Out::back));
    int out = 0;
    for (Out next : outs) {
      while (!back.isEmpty() && back.element().back() <= next.from()) {
        out -= back.remove().number();
      }
      back.add(next);
      out += next.number();
      if (next.from() >= from && next.from() < to) {
        excess += Math.max(0, Math.min(next.number(), out - count));
      }
    }
    return excess;
  }
}
