package quadrille.cli.render;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;
import java.util.stream.Collectors;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Pass;
import quadrille.plan.planning.UsedFigure;
import quadrille.plan.planning.UsedFigure.What;
import quadrille.plan.work.WorkNote;

/** A mouth's work in words. */
final class WorkWords {

  private WorkWords() {}

  /** A note as a sentence. */
  static String note(WorkNote note, Numbering numbering) {
    String teeth = note.teeth().stream().map(numbering::name).collect(Collectors.joining(", "));
    if (note instanceof WorkNote.Unprobed unprobed) {
      return "Sites of "
          + teeth
          + " could not be probed and are taken as "
          + number(unprobed.takenAsMm().value())
          + " mm ("
          + unprobed.takenAsMm().source()
          + "); the work below the margin is provisional: "
          + (unprobed.afterGross()
              ? "chart again after the gross pass."
              : "chart again before it.");
    }
    if (note instanceof WorkNote.ChartFirst first) {
      return first.unprobed()
          + " of "
          + first.sites()
          + " sites could not be probed, more than "
          + Math.round(100 * first.mostShare().value())
          + " of 100 ("
          + first.mostShare().source()
          + "): these visits make the mouth chartable, and each ends with charting. What follows is"
          + " provisional, some "
          + Words.minutes(first.seconds())
          + " of work, and is planned again from the new chart. Not probed: "
          + teeth
          + ".";
    }
    String what =
        switch (((WorkNote.Of) note).kind()) {
          case PLANNED_EXTRACTION -> "Planned for extraction, so no work is planned: ";
          case UNLISTED -> "Not listed in the chart and taken as missing: ";
          case DEEP_IMPLANT ->
              "Implant of 6 mm or more that bled: more than cleaning; the clinician decides on a"
                  + " radiograph and a referral first: ";
          case ASK_IF_SENSITIVE ->
              "Sensitive, and too shallow for a planned needle; ask at the chair what is wanted: ";
          case PARTED_BRIDGE ->
              "A calculus bridge joins these teeth, and another visit clears the rest of it; part it"
                  + " there, and leave nothing loose: ";
          case NOTHING_DUE -> "No pass is due, by the practice's rules: ";
          case RESTORATION_MARGIN ->
              "Restoration margin: the clinician decides how near ultrasonic work may go: ";
          case DEMINERALISED ->
              "Demineralised enamel: the clinician decides whether ultrasonic work is safe: ";
        };
    return what + teeth + ".";
  }

  /** What a figure of the practice says, with its value and unit. */
  static String figure(UsedFigure figure) {
    What what = figure.what();
    if (what instanceof What.WhichPass) {
      return "which teeth get which pass";
    }
    if (what instanceof What.PassFrom from) {
      return from.pass().word() + " pass from " + mm(from.mm());
    }
    if (what instanceof What.FlatTime time) {
      return time.pass() == Pass.IMPLANT_CARE
          ? "implant care: " + number(time.seconds()) + " s an implant"
          : time.pass().word() + " pass: " + number(time.seconds()) + " s a tooth";
    }
    if (what instanceof What.GrossTime gross) {
      return "gross pass, deposit "
          + gross.deposit().word()
          + ": "
          + number(gross.seconds())
          + " s a tooth";
    }
    if (what instanceof What.UnprobedAs unprobed) {
      return "a site not probed counts as " + mm(unprobed.mm());
    }
    if (what instanceof What.FineTime fine) {
      return "fine pass, site of " + depths(fine) + ": " + number(fine.seconds()) + " s";
    }
    if (what instanceof What.FurcationFactor furcation) {
      return "fine pass, furcation " + furcation.grade() + ": times " + number(furcation.factor());
    }
    if (what instanceof What.ByPosition by) {
      return (by.pass() == Pass.FINE ? "fine pass, root surface" : "gross pass, crown factor")
          + ", "
          + (by.positions().size() == 1 ? "position " : "positions ")
          + ranges(by.positions())
          + " from the midline";
    }
    if (what instanceof What.HandFactor hand) {
      return "work by hand: times " + number(hand.factor());
    }
    if (what instanceof What.NumbFrom numb) {
      return "numb from " + mm(numb.mm());
    }
    if (what instanceof What.GelUpTo gel) {
      return "gel up to " + mm(gel.mm());
    }
    What.GrossNumbFrom gross = (What.GrossNumbFrom) what;
    return "gross pass numb from deposit " + gross.deposit().word() + " and " + mm(gross.mm());
  }

  private static String depths(What.FineTime fine) {
    int from = fine.fromMm();
    Integer to = fine.toMm();
    return from + (to == null ? " mm or more" : to == from ? " mm" : " to " + to + " mm");
  }

  /** Such as {@code 1 to 3, 6}. */
  private static String ranges(SortedSet<Integer> numbers) {
    List<String> ranges = new ArrayList<>();
    for (int from : numbers) {
      if (!numbers.contains(from - 1)) {
        int to = from;
        while (numbers.contains(to + 1)) {
          to++;
        }
        ranges.add(Words.range(from, to));
      }
    }
    return String.join(", ", ranges);
  }

  private static String mm(double value) {
    return number(value) + " mm";
  }

  private static String number(double value) {
    return Words.number(value, 2);
  }
}
