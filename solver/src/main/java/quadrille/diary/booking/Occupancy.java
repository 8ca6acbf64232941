package quadrille.diary.booking;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.NeedleTime;
import quadrille.diary.book.SterileStock;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.MinuteSet;
import quadrille.diary.booking.problem.SetCounts;
import quadrille.diary.booking.problem.Slot;
import quadrille.diary.booking.problem.VisitCase;

/**
 * What is taken, minute by minute: clinicians, chairs, and sets that are in use or being
 * reprocessed. What was placed can be taken away again.
 */
final class Occupancy {

  private static final int UNKNOWN = -1;

  private final BookingCase booking;
  // By what is shut and by visits that they treat; what they leave over is reckoned by these alone.
  private final List<BitSet> clinicians = new ArrayList<>();
  // The same, and by the minutes in which they only inject.
  private final List<BitSet> present = new ArrayList<>();
  private final List<BitSet> chairs = new ArrayList<>();
  private final int[][] setsOut;
  private final int reprocessing;

  // By clinician and day, the longest time for which nothing takes them; UNKNOWN until asked for.
  private final int[][] longestFree;

  // Sets can be out until some time after the last day.
  private final int horizon;

  private Occupancy(BookingCase booking) {
    this.booking = booking;
    SterileStock stock = booking.diary().stock();
    this.reprocessing = stock.reprocessingMinutes();
    this.horizon = booking.time().length() + reprocessing;
    this.setsOut = new int[stock.sets().size()][horizon];
    this.longestFree = new int[booking.clinicians()][booking.time().days()];
    for (int[] days : longestFree) {
      Arrays.fill(days, UNKNOWN);
    }
    for (int i = 0; i < booking.clinicians(); i++) {
      clinicians.add(booking.clinicianShut(i).copy());
      present.add(booking.clinicianShut(i).copy());
    }
    for (int i = 0; i < booking.chairs(); i++) {
      chairs.add(booking.chairShut(i).copy());
    }
  }

  /** What the diary's own bookings and busy times take. */
  static Occupancy of(BookingCase booking) {
    return of(booking, List.of());
  }

  /** The same without some of its bookings. */
  static Occupancy of(BookingCase booking, List<Booking> without) {
    Occupancy occupancy = new Occupancy(booking);
    for (Booking one : booking.diary().bookings()) {
      if (one.status().takesTime() && !without.contains(one)) {
        occupancy.place(booking.slot(one), one.minutes(), booking.uses(one.sets()));
      }
    }
    for (BusyTime busy : booking.busyWithSets()) {
      int start = booking.time().minute(busy.time().start());
      int end = booking.time().minuteUp(busy.time().end());
      occupancy.setsOut(start, end - start, booking.uses(busy.sets()), 1);
    }
    return occupancy;
  }

  /**
   * Takes a slot.
   *
   * @param uses how many of each set
   */
  void place(Slot slot, int minutes, SetCounts uses) {
    mark(slot, minutes, true);
    setsOut(slot.start(), minutes, uses, 1);
  }

  /** Frees a slot that was taken, and nothing beside it. */
  void remove(Slot slot, int minutes, SetCounts uses) {
    mark(slot, minutes, false);
    setsOut(slot.start(), minutes, uses, -1);
  }

  private void mark(Slot slot, int minutes, boolean taken) {
    for (Slot.Call call : slot.calls()) {
      int begin = Math.max(0, call.from());
      int end = Math.min(booking.time().length(), call.to());
      if (begin < end) {
        markPresent(call.clinician(), begin, end, taken);
      }
    }
    int from = Math.max(0, slot.start());
    int to = Math.min(booking.time().length(), slot.start() + minutes);
    if (from < to) {
      mark(
          clinicians.get(slot.clinician()),
          booking.clinicianShut(slot.clinician()),
          from,
          to,
          taken);
      markPresent(slot.clinician(), from, to, taken);
      mark(chairs.get(slot.chair()), booking.chairShut(slot.chair()), from, to, taken);
    }
  }

  private void markPresent(int clinician, int from, int to, boolean taken) {
    mark(present.get(clinician), booking.clinicianShut(clinician), from, to, taken);
    int last = booking.time().day(to - 1);
    for (int day = booking.time().day(from); day <= last; day++) {
      longestFree[clinician][day] = UNKNOWN;
    }
  }

  /** The most minutes on end for which a clinician is free on a day. */
  int longestFree(int clinician, int day) {
    int known = longestFree[clinician][day];
    if (known == UNKNOWN) {
      BitSet taken = present.get(clinician);
      int end = booking.time().dayStart(day + 1);
      known = 0;
      for (int free = taken.nextClearBit(booking.time().dayStart(day)); free < end; ) {
        int next = Math.min(end, next(taken, free));
        known = Math.max(known, next - free);
        free = taken.nextClearBit(next);
      }
      longestFree[clinician][day] = known;
    }
    return known;
  }

  /** What is shut stays shut, even where a booking lies there and is taken away. */
  private static void mark(BitSet taken, MinuteSet shut, int from, int to, boolean take) {
    taken.set(from, to, take);
    if (!take) {
      for (int at = shut.next(from); at >= 0 && at < to; at = shut.next(at)) {
        int end = Math.min(to, shut.nextOutside(at));
        taken.set(at, end);
        at = end;
      }
    }
  }

  private void setsOut(int start, int minutes, SetCounts uses, int sign) {
    int from = Math.max(0, start);
    int to = Math.min(horizon, start + minutes + reprocessing);
    for (int set = 0; set < uses.sets(); set++) {
      if (uses.of(set) > 0) {
        for (int minute = from; minute < to; minute++) {
          setsOut[set][minute] += sign * uses.of(set);
        }
      }
    }
  }

  /** The first minute at or after this one in which the clinician is taken. */
  int clinicianTaken(int clinician, int from) {
    return next(present.get(clinician), from);
  }

  private int next(BitSet bits, int from) {
    int taken = bits.nextSetBit(from);
    return taken < 0 ? booking.time().length() : taken;
  }

  /**
   * Who comes to inject into a visit: one for all its needles where one can, and otherwise for each
   * the first who is free; in the order of the diary.
   *
   * @return none where its clinician needs nobody; null where nobody can
   */
  @Nullable List<Slot.Call> injectors(VisitCase visit, int start, int clinician) {
    if (!visit.aided().get(clinician)) {
      return List.of();
    }
    List<NeedleTime> needles = visit.request().needles();
    List<Slot.Call> all = injectors(needles, start, clinician);
    if (all != null) {
      return all;
    }
    List<Slot.Call> calls = new ArrayList<>();
    for (NeedleTime needle : needles) {
      List<Slot.Call> one = injectors(List.of(needle), start, clinician);
      if (one == null) {
        return null;
      }
      calls.addAll(one);
    }
    return calls;
  }

  private @Nullable List<Slot.Call> injectors(List<NeedleTime> needles, int start, int clinician) {
    for (int who = 0; who < booking.clinicians(); who++) {
      if (who == clinician || !booking.diary().clinicians().get(who).mayInject()) {
        continue;
      }
      List<Slot.Call> calls = new ArrayList<>();
      for (NeedleTime needle : needles) {
        calls.add(new Slot.Call(who, start + needle.from(), start + needle.to()));
      }
      if (free(calls)) {
        return calls;
      }
    }
    return null;
  }

  /** Whether all who come to inject are free then. */
  boolean free(List<Slot.Call> calls) {
    for (Slot.Call call : calls) {
      if (clinicianTaken(call.clinician(), call.from()) < call.to()) {
        return false;
      }
    }
    return true;
  }

  /** The first minute at or after this one in which the clinician is free. */
  int clinicianFree(int clinician, int from) {
    return present.get(clinician).nextClearBit(from);
  }

  /**
   * The free chair whose free time fits most closely, so that long free times stay whole; -1 if
   * none is free.
   */
  int chair(int start, int minutes) {
    int best = -1;
    int least = Integer.MAX_VALUE;
    for (int chair = 0; chair < chairs.size(); chair++) {
      BitSet taken = chairs.get(chair);
      int next = taken.nextSetBit(start);
      int end = next < 0 ? booking.time().length() : next;
      if (end >= start + minutes) {
        int free = end - taken.previousSetBit(start);
        if (free < least) {
          best = chair;
          least = free;
        }
      }
    }
    return best;
  }

  boolean chairFree(int start, int minutes) {
    for (BitSet taken : chairs) {
      int next = taken.nextSetBit(start);
      if (next < 0 ? booking.time().length() >= start + minutes : next >= start + minutes) {
        return true;
      }
    }
    return false;
  }

  boolean chairFree(int chair, int start, int minutes) {
    int next = chairs.get(chair).nextSetBit(start);
    return next < 0 ? booking.time().length() >= start + minutes : next >= start + minutes;
  }

  /** Whether the sets are in stock from the start until they are back. */
  boolean setsInStock(int start, int minutes, SetCounts uses) {
    int to = Math.min(horizon, start + minutes + reprocessing);
    for (int set = 0; set < uses.sets(); set++) {
      if (uses.of(set) > 0) {
        int most = booking.diary().stock().sets().get(set).count() - uses.of(set);
        int[] out = setsOut[set];
        for (int minute = start; minute < to; minute++) {
          if (out[minute] > most) {
            return false;
          }
        }
      }
    }
    return true;
  }

  /**
   * By how many minutes that nobody can use a visit makes the leftovers of its clinician's day
   * grow; negative where it fills some up. An open span of time with nothing booked has no
   * leftovers. The visit ends on the day on which it starts, and is not placed yet.
   */
  int sliver(int clinician, int day, int start, int minutes) {
    BitSet taken = clinicians.get(clinician);
    MinuteSet shut = booking.clinicianShut(clinician);
    int dayStart = booking.time().dayStart(day);
    int dayEnd = booking.time().dayStart(day + 1);
    int from = Math.max(dayStart, taken.previousSetBit(start) + 1);
    int to = Math.min(dayEnd, next(taken, start + minutes));
    boolean untouched = (from == dayStart || shut.has(from - 1)) && (to == dayEnd || shut.has(to));
    int before = untouched ? 0 : unusable(to - from);
    return unusable(start - from) + unusable(to - start - minutes) - before;
  }

  private int unusable(int minutes) {
    return minutes < booking.weights().usableMinutes() ? minutes : 0;
  }
}
