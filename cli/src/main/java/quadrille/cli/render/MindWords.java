package quadrille.cli.render;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Numbering;
import quadrille.plan.course.Assumption;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Course;
import quadrille.plan.course.StopQuestion;
import quadrille.plan.course.Visit;

/** What to mind with a plan, and what it rests on, in words. */
public final class MindWords {

  /** Said of a course whose search was asked to end early. */
  public static final String CUT_SHORT =
      "the search was cut short: a longer one may find a better course, and another run may find"
          + " another";

  private MindWords() {}

  /** Cautions, one line each. */
  public static List<String> cautions(List<Caution> cautions, Numbering numbering) {
    return cautions.stream().map(caution -> of(caution, numbering)).toList();
  }

  /** What is to be minded of a course that does not stand on the sheet of every visit already. */
  static List<Caution> onNoSheet(Course course) {
    return course.cautions().stream()
        .filter(
            caution ->
                course.visits().isEmpty()
                    || !course.visits().stream()
                        .allMatch(visit -> visit.cautions().contains(caution)))
        .toList();
  }

  /** The areas that visits leave with deposit, one line a visit that does. */
  public static List<String> leftOpen(Course course, Numbering numbering) {
    return course.visits().stream()
        .flatMap(
            visit ->
                visit.cautions().stream()
                    .filter(Caution.LeftOpen.class::isInstance)
                    .map(caution -> "visit " + visit.number() + ": " + of(caution, numbering)))
        .toList();
  }

  /** What is asked at the head of a visit, one line each. */
  public static List<String> stopQuestions(Visit visit) {
    return visit.stopQuestions().stream().map(MindWords::of).toList();
  }

  /** What is asked at the head of the visits of a course, each question once. */
  public static List<String> stopQuestions(Course course) {
    return asked(course.visits()).stream().map(MindWords::of).toList();
  }

  /** What is asked at the head of visits, each question once. */
  public static List<StopQuestion> asked(List<Visit> visits) {
    return visits.stream().flatMap(visit -> visit.stopQuestions().stream()).distinct().toList();
  }

  /** What is asked, in words. */
  public static String of(StopQuestion question) {
    if (question instanceof StopQuestion.OfAlert one) {
      return one.question();
    }
    return switch ((StopQuestion.Known) question) {
      case TAKE_THE_HISTORY ->
          "Take the medical history before anything is touched. Is there anything that speaks"
              + " against ultrasound or bleeding?";
      case WEIGH_THE_PATIENT ->
          "Weigh the patient and chart it: no dose is planned without, and work waits for it.";
      case ASK_ABOUT_ALERTS -> "Ask about each alert of which the practice file says nothing.";
    };
  }

  /** What a course's numbers rest on, one line each. */
  public static List<String> assumptions(Course course) {
    List<String> lines = new ArrayList<>();
    if (course.cutShort()) {
      lines.add(CUT_SHORT);
    }
    course.assumptions().forEach(assumption -> lines.add(of(assumption)));
    return lines;
  }

  static String of(Caution caution, Numbering numbering) {
    if (caution instanceof Caution.AsWritten written) {
      return written.text();
    }
    if (caution instanceof Caution.UnknownAlert unknown) {
      return unknown.alert().word() + ": the practice file says nothing of it; ask the clinician";
    }
    if (caution instanceof Caution.AntibioticCovers some) {
      return some.alert().word()
          + ": this course takes "
          + Words.count(some.covers(), "antibiotic cover")
          + ", one a visit, where the clinician decides on one";
    }
    if (caution instanceof Caution.OfWork work) {
      return WorkWords.note(work.note(), numbering);
    }
    if (caution instanceof Caution.BlockMayFail block) {
      return "the "
          + block.injection().name(numbering)
          + " block may fail; test before starting, "
          + rescue(block.rescue());
    }
    if (caution instanceof Caution.StrongSolutionInBlock strong) {
      return "paraesthesia is reported more often after a 4 % solution in a lower block ("
          + strong.injection().name(numbering)
          + "): the clinician weighs another";
    }
    if (caution instanceof Caution.BlockBeforeLook block) {
      return "the deep needle ("
          + block.injection().name(numbering)
          + ") comes before the first look at the bleeding: the clinician weighs beginning with"
          + " other teeth, or giving it after the look in a longer visit";
    }
    if (caution instanceof Caution.DidNotTake failed) {
      return "the "
          + failed.injection().name(numbering)
          + " did not take in visit "
          + failed.visit()
          + " ("
          + failed.date()
          + "): another technique or agent is the clinician's choice; test before starting";
    }
    if (caution instanceof Caution.GivenThatDay given) {
      List<String> all =
          new ArrayList<>(
              given.injections().stream()
                  .map(one -> one.ref().name(numbering) + " " + Words.number(one.ml(), 2) + " mL")
                  .toList());
      if (given.gelCartridges() > 0) {
        all.add(Words.number(given.gelCartridges(), 2) + " of a cartridge of pocket gel");
      }
      return "given earlier that day: "
          + String.join(", ", all)
          + "; the dose limits hold for the day, and the doses shown are those of this visit alone";
    }
    if (caution instanceof Caution.LeftOpen open) {
      return "left with deposit for a later visit: "
          + String.join(
              ", ", open.areas().stream().map(area -> left(area, open, numbering)).toList())
          + "; an abscess may form where the gingiva tightens over what stays: the patient is told"
          + " to call the practice at pain, swelling or fever, before the next visit";
    }
    if (caution instanceof Caution.SleeveBroke sleeve) {
      return "a sleeve broke at implant "
          + numbering.name(sleeve.implant())
          + " in visit "
          + sleeve.visit()
          + " ("
          + sleeve.date()
          + "): look for what may have stayed, and for marks on the implant";
    }
    return switch ((Caution.Known) caution) {
      case HISTORY_NOT_TAKEN ->
          "nobody has taken the medical history: no injection is planned, and all of this is"
              + " provisional until somebody has";
      case CHILD ->
          "under age: whoever may consent does; referral, shorter visits and lower doses are the"
              + " clinician's to decide";
      case VERY_OLD -> "very old: the clinician considers a lower dose and shorter visits";
      case VERY_LIGHT -> "very light: the clinician considers a lower dose";
      case GEL_WOULD_BE_LIKED ->
          "pocket gel would be liked better than a needle, and the practice has none";
      case AGE_NOT_CHARTED ->
          "the patient's age is not charted, so no agent with an age limit is planned";
      case NEW_SLEEVE -> "fit a new sleeve; no bare metal on the implant, low power only";
      case NUMB_AFTERWARDS ->
          "numb lip, cheek or tongue afterwards: no chewing until feeling is back";
      case PROVISIONAL_MINUTES ->
          "sites not probed so far are charted first: the minutes of the fine pass there are"
              + " provisional";
      case ENDS_WITH_CHARTING ->
          "ends with charting: plan again from the new chart before any fine pass";
      case MEASURE_AFTER_FIRST_CARTRIDGE ->
          "after the first cartridge: wait, measure pulse and blood pressure, and give more only if"
              + " both have stayed";
      case HAEMOSTATIC_AT_HAND ->
          "gauze and a haemostatic dressing on the tray; nobody leaves while it bleeds";
      case DELICATE_SURFACES -> "keep the tip off restoration margins and demineralised enamel";
    };
  }

  /** An area, and what of it waits: "UR posterior (fine, finishing)". */
  private static String left(AreaRef area, Caution.LeftOpen open, Numbering numbering) {
    String passes =
        open.waiting().stream()
            .filter(one -> one.area().equals(area))
            .map(one -> one.pass().word())
            .collect(Collectors.joining(", "));
    return area.name(numbering) + (passes.isEmpty() ? "" : " (" + passes + " to come)");
  }

  private static String rescue(Caution.@Nullable Rescue rescue) {
    if (rescue == null) {
      return "and a second dose counts";
    }
    return rescue.room()
        ? "and there is room for one more (" + rescue.ml() + " mL)"
        : "and there is no room for one more: stop if it fails";
  }

  static String of(Assumption assumption) {
    if (assumption instanceof Assumption.AsWritten written) {
      return written.text();
    }
    if (assumption instanceof Assumption.BookedInTime booked) {
      return "booked so that "
          + Math.round(100 * booked.certainty())
          + " of 100 visits end in time, spread "
          + plain(booked.spread())
          + " ("
          + booked.source()
          + ")";
    }
    Assumption.Time time = (Assumption.Time) assumption;
    String value = plain(time.value());
    String use =
        switch (time.use()) {
          case FINE_PASS -> "fine pass, from " + value + " s a site in the deepest band";
          case GROSS_PASS -> "gross pass, " + value + " s a tooth with heavy deposit";
          case FINISHING -> "finishing, " + value + " s a tooth";
          case IMPLANT_CARE -> "implant care, " + value + " s an implant";
          case TIP_CHANGES -> "tip changes, " + value + " s each";
          case REPOSITIONING -> "repositioning, " + value + " s to another area";
          case SET_UP -> "set-up, " + value + " min a visit";
          case HISTORY -> "history, " + value + " min each time";
          case BLOOD_PRESSURE -> "blood pressure, " + value + " min each time";
          case CONSENT -> "consent, " + value + " min";
          case RINSE -> "rinse, " + value + " min each time";
          case CHARTING -> "charting, " + value + " min each time";
          case CHARTING_ANEW -> "charting of teeth not probed, " + value + " s each";
          case LAST_LOOK -> "last look, " + value + " min each time";
          case INSTRUCTION -> "instruction, " + value + " min each time";
          case CLOSE -> "close, " + value + " min a visit";
          case INJECTING -> "injecting, " + value + " mL a minute";
        };
    return String.format(
        Locale.ROOT, "%.0f min: %s (%s)", time.seconds() / 60.0, use, time.source());
  }

  /** At one decimal, or at three below 1, without trailing zeros. */
  private static String plain(double value) {
    return new BigDecimal(value)
        .setScale(value < 1 ? 3 : 1, RoundingMode.HALF_UP)
        .stripTrailingZeros()
        .toPlainString();
  }
}
