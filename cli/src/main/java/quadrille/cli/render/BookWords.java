package quadrille.cli.render;

import java.time.ZoneId;
import java.util.List;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Diary;
import quadrille.diary.book.StretchedGap;
import quadrille.diary.booking.DiaryChange;
import quadrille.diary.booking.Merit;
import quadrille.diary.booking.Offer;
import quadrille.diary.booking.OfferedVisit;
import quadrille.diary.booking.Reason;
import quadrille.diary.booking.Rebooking;
import quadrille.diary.booking.Remedy;
import quadrille.diary.booking.Taking;
import quadrille.diary.booking.problem.CostTerm;
import quadrille.diary.desk.BookingAnswer;
import quadrille.diary.desk.CarriedOn;
import quadrille.diary.desk.DiaryDifference;
import quadrille.diary.desk.RebookingAnswer;

/** How reasons, remedies and differences of booking are said, in text and in JSON alike. */
public final class BookWords {

  private BookWords() {}

  /** What speaks for an offer, as programs read it. */
  static String merit(Merit merit) {
    return switch (merit) {
      case FINISHES_FIRST -> "finishes first";
      case SAME_CLINICIAN -> "same clinician";
      case AS_PREFERRED -> "as preferred";
      case BEST_BALANCE -> "best balance";
      case KEEPS_TIMES -> "keeps its times";
      case OTHER_TIMES -> "other times";
    };
  }

  /** The same as it is read out, where an offer is to fit two lines. */
  static String shortly(Merit merit) {
    return switch (merit) {
      case FINISHES_FIRST -> "earliest";
      case BEST_BALANCE -> "best overall";
      case SAME_CLINICIAN, AS_PREFERRED, KEEPS_TIMES, OTHER_TIMES -> merit(merit);
    };
  }

  /** What speaks for an offer, to be read out, such as {@code Earliest, as preferred.} */
  public static String merits(Offer offer, Diary diary) {
    return Words.capital(
            String.join(
                ", ",
                offer.because().stream()
                    .map(
                        merit ->
                            merit == Merit.SAME_CLINICIAN
                                ? DiaryWords.clinician(diary, offer.visits().get(0).clinician())
                                    + " throughout"
                                : shortly(merit))
                    .toList()))
        + ".";
  }

  /** A visit of an offer, to be read out: when, how long, with whom, where. */
  public static String visit(OfferedVisit visit, Diary diary) {
    return DiaryWords.when(visit.start(), diary.zone(), 0)
        + ", "
        + visit.minutes()
        + "\u00a0minutes, "
        + DiaryWords.clinician(diary, visit.clinician())
        + ", "
        + DiaryWords.noBreak(DiaryWords.chair(diary, visit.chair()))
        + DiaryWords.calls(diary, visit.injectors(), visit.start());
  }

  /** Gaps of an offer that are longer than their plan allows, a sentence each. */
  public static List<String> stretched(Offer offer, Diary diary) {
    return stretchedGaps(offer, diary).stream().map(BookWords::stretched).toList();
  }

  /** Gaps of an offer that are longer than their plan allows. */
  static List<StretchedGap> stretchedGaps(Offer offer, Diary diary) {
    Diary after = Taking.booked(diary, offer.visits(), null);
    return offer.visits().stream()
        .map(OfferedVisit::caseName)
        .distinct()
        .flatMap(name -> after.course(name).stream())
        .flatMap(course -> StretchedGap.of(after, course).stream())
        .toList();
  }

  /** That a gap is longer than its plan allows. */
  static String stretched(StretchedGap gap) {
    return "Visit "
        + gap.visit()
        + " comes "
        + Words.count(gap.days(), "day")
        + " after visit "
        + gap.before()
        + ", "
        + gap.more()
        + " more than the plan's longest gap; allowed by "
        + gap.allowedBy()
        + ".";
  }

  /** Between which days the re-evaluation after an offer is. */
  public static String reevaluation(Offer offer) {
    return "Re-evaluation "
        + DiaryWords.date(offer.reevaluateFrom(), 0)
        + " to "
        + DiaryWords.date(offer.reevaluateTo(), 0)
        + ".";
  }

  /** Where no way keeps every rule, which single changes would help; lines. */
  public static List<String> remedies(BookingAnswer.NoWay noWay) {
    return noWay.remedies().stream()
        .map(
            remedy -> {
              Help help =
                  help(remedy, noWay.asked().own().zone(), noWay.asked().order().first().getYear());
              return (remedy instanceof Remedy.LaterEnd later
                      ? "looking until " + later.until()
                      : help.change())
                  + " (in the way: "
                  + help.rule()
                  + ")";
            })
        .toList();
  }

  static String term(CostTerm term) {
    return switch (term) {
      case FINISH -> "finish";
      case WAIT -> "wait";
      case CLINICIAN_CHANGE -> "change of clinician";
      case OTHER_CLINICIAN -> "other clinician";
      case OTHER_TIME -> "other time";
      case SLIVERS -> "leftover minutes";
      case INJECTOR -> "injector minutes";
      case LONGER_GAPS -> "longer gaps";
    };
  }

  /** What stands in the way without a remedy, and the remedy. */
  record Help(String rule, String change) {}

  /**
   * A remedy in words.
   *
   * @param year which goes without saying
   */
  static Help help(Remedy remedy, ZoneId zone, int year) {
    if (remedy instanceof Remedy.LaterEnd later) {
      return new Help("no free time until " + later.last(), "--until " + later.until());
    }
    if (remedy instanceof Remedy.LongerGaps longer) {
      return new Help(
          "at most so many days between visits",
          Words.count(longer.days(), "day")
              + " more, if a clinician allows it: --longer-gaps "
              + longer.days()
              + " --allowed-by NAME");
    }
    if (remedy instanceof Remedy.LongerDeadlines longer) {
      return new Help(
          "at most so many days until what is begun is finished", longer.days() + " days more");
    }
    if (remedy instanceof Remedy.ShorterGaps shorter) {
      return new Help("at least so many days between visits", shorter.days() + " days fewer");
    }
    if (remedy instanceof Remedy.PatientComes comes) {
      List<String> times =
          comes.starts().stream()
              .map(start -> DiaryWords.when(start, zone, year).replace('\u00a0', ' '))
              .toList();
      return new Help(
          "when the patient can come", "the patient coming at " + String.join(", ", times));
    }
    if (remedy instanceof Remedy.AnotherInjector) {
      return new Help("who may inject", "another clinician who may inject");
    }
    if (remedy instanceof Remedy.OneMoreSet more) {
      return new Help("sterile sets in stock", "one more " + more.set());
    }
    if (remedy instanceof Remedy.OneMoreChair) {
      return new Help("one patient in a chair", "one more chair");
    }
    return new Help(
        "what is booked stays",
        remedy instanceof Remedy.MovingHeld
            ? "moving bookings that are held and not yet promised"
            : "moving bookings of others");
  }

  /** Why a visit cannot stay. */
  static String because(Reason reason, Diary diary) {
    if (reason instanceof Reason.Cancelled) {
      return "it was cancelled";
    }
    if (reason instanceof Reason.Missed) {
      return "the visit was missed";
    }
    if (reason instanceof Reason.PracticeClosed) {
      return "the practice is closed";
    }
    if (reason instanceof Reason.ClinicianAway away) {
      return DiaryWords.clinician(diary, away.clinician()) + " is away";
    }
    if (reason instanceof Reason.MakesRoom makes) {
      return "it makes room for " + makes.caseName();
    }
    if (reason instanceof Reason.NothingBefore nothing) {
      return "visit " + nothing.visit() + " goes before it and has no place";
    }
    if (reason instanceof Reason.GoesBefore before) {
      return "it goes before visit " + before.visit() + " of its course, which moves";
    }
    return "it follows another visit of its course that moves";
  }

  private static String because(CarriedOn.Mismatch mismatch) {
    if (mismatch instanceof CarriedOn.TooShort tooShort) {
      return "it has " + tooShort.minutes() + " min and needs " + tooShort.needed();
    }
    if (mismatch instanceof CarriedOn.LacksSet lacks) {
      return "it needs the set " + lacks.set() + " too";
    }
    if (mismatch instanceof CarriedOn.OtherNeedles) {
      return "its needles come when nobody who comes to inject is booked";
    }
    return mismatch instanceof CarriedOn.NeedsInjector
        ? "its clinician must now be one who may inject"
        : "the plan has no such visit any more";
  }

  /** A booking that is called off with what is taken, or was. */
  public static String calledOff(CarriedOn.CalledOff off, Diary diary, boolean taking) {
    return named(off, diary)
        + (taking ? " is called off: " : " will be called off: ")
        + because(off.because())
        + ".";
  }

  /** A booking that is promised from now on, or only held, with what is taken. */
  public static String restated(CarriedOn.Restated one, Diary diary, boolean taking) {
    return named(one.booking(), diary)
        + (taking ? " is " : " will be ")
        + (one.now() == BookingStatus.PROMISED
            ? "promised: its plan is not provisional any more."
            : "held only: its plan is provisional.");
  }

  /** That bookings are only held, of courses whose plans are provisional. */
  public static String held(List<String> cases) {
    return "Held only, not to be promised: nobody has taken the medical history of "
        + String.join(", ", cases)
        + ", so the plan is provisional. Take the history, plan again and book that plan.";
  }

  /** What a visit began and another does not end in time. */
  public static String broken(Rebooking.Broken broken) {
    return broken.caseName()
        + ": visit "
        + broken.deadline().from()
        + " leaves areas begun, to be finished in visit "
        + broken.deadline().to()
        + " within "
        + Words.count(broken.deadline().days(), "day")
        + ", by "
        + DiaryWords.day(broken.by())
        + "; that is not kept. An abscess may form where deposit is left: book it sooner, or ask"
        + " the clinician.";
  }

  private static String named(CarriedOn.CalledOff off, Diary diary) {
    return named(off.booking(), diary);
  }

  private static String named(Booking booking, Diary diary) {
    return booking.id()
        + ", "
        + DiaryWords.when(
            booking.start(), diary.zone(), booking.start().atZone(diary.zone()).getYear())
        + ",";
  }

  /** That all visits are booked, after what is booked though it is not needed; lines. */
  private static String allBooked(BookingAnswer.AllBooked answer) {
    StringBuilder lines = new StringBuilder();
    for (CarriedOn.CalledOff off : answer.unneeded()) {
      lines
          .append(named(off, answer.diary()))
          .append(" still stands, though ")
          .append(because(off.because()))
          .append("; call it off.\n");
    }
    return lines.append(answer.caseName()).append(": all its visits are booked.").toString();
  }

  /** What has changed in a diary. */
  public static String difference(DiaryDifference difference) {
    if (difference instanceof DiaryDifference.Booked booked) {
      return booked.booking() + " has been booked.";
    }
    if (difference instanceof DiaryDifference.Changed changed) {
      return changed.booking() + " has been changed.";
    }
    if (difference instanceof DiaryDifference.Gone gone) {
      return gone.booking() + " is gone.";
    }
    return "Hours, absence, stock or a calendar have been changed.";
  }

  /** That a diary is another by now. */
  public static String changed(String file) {
    return file + " has been changed since it was read; nothing was written.";
  }

  /** Why there are no offers. */
  public static String refusal(BookingAnswer answer) {
    if (answer instanceof BookingAnswer.NoVisit none) {
      return none.caseName() + ": its plan has no visit to book.";
    }
    if (answer instanceof BookingAnswer.AllBooked all) {
      return allBooked(all);
    }
    if (answer instanceof BookingAnswer.UnknownClinician unknown) {
      return "--likes-clinician: the diary has no \""
          + unknown.clinician()
          + "\"; it has "
          + String.join(", ", unknown.known())
          + ".";
    }
    if (answer instanceof BookingAnswer.NobodyWaits) {
      return "book: no course waits in the diary.";
    }
    if (answer instanceof BookingAnswer.SameCase same) {
      return same.caseName()
          + ": two of the plans are of this case. A case is one patient's one course.";
    }
    BookingAnswer.OtherCourse other = (BookingAnswer.OtherCourse) answer;
    Booking taken = other.taken();
    return taken.caseName()
        + ": visit "
        + taken.visit()
        + " took place "
        + DiaryWords.when(taken.start(), other.diary().zone(), 0)
        + ", and this plan has another visit of that number. It is of another course, or of another"
        + " patient: give that a case of its own. Of the same course, plan again what is left.";
  }

  /** What is wrong with changes, a line each. */
  public static String unworkable(RebookingAnswer answer, Diary diary) {
    return answer instanceof RebookingAnswer.Unworkable unworkable
        ? String.join("\n", unworkable.faults().stream().map(one -> fault(one, diary)).toList())
        : "";
  }

  private static String fault(RebookingAnswer.Fault fault, Diary diary) {
    if (fault instanceof RebookingAnswer.NotStanding missing) {
      return (missing.change() instanceof DiaryChange.Missed ? "--missed" : "--cancelled")
          + ": no booking \""
          + missing.booking()
          + "\" stands in the diary.";
    }
    if (fault instanceof RebookingAnswer.NoSuchClinician unknown) {
      DiaryChange.Away away = unknown.change();
      return unknownAway(
          away.clinician()
              + "@"
              + away.first()
              + (away.first().equals(away.last()) ? "" : "/" + away.last()),
          diary);
    }
    return "--cancelled and --missed: name a booking twice.";
  }

  /** That words name no clinician with days. */
  public static String unknownAway(String words, Diary diary) {
    return "--away: is \""
        + words
        + "\"; a clinician and days are allowed, such as "
        + diary.clinicians().get(0).id()
        + "@2026-03-10/2026-03-12.";
  }
}
