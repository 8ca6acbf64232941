package quadrille.treatment.record;

import java.time.LocalDate;
import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;

/**
 * What a visit really did.
 *
 * @param visit its number in the plan
 * @param date the day
 * @param clinician the practice's own reference for who worked, as all records of that person have
 *     it
 * @param steps every step that the plan had for this visit, done or not, and any step of a later
 *     visit that was done early
 * @param injections given, in that order, those that failed included
 * @param gelCartridges of pocket gel, used, by quadrant; only quadrants that had some
 * @param minutes from set-up to close; null where only parts were timed
 * @param parts minutes by area and pass; empty where only the whole was timed
 * @param bookedMinutes what the diary gave it
 * @param interrupted whether something outside the work (an alarm, a late patient) stretched or
 *     ended it, so that its minutes say little about the work
 * @param findings what was found
 * @param note anything else; may be empty
 */
public record VisitDone(
    int visit,
    LocalDate date,
    String clinician,
    List<StepDone> steps,
    List<Given> injections,
    SortedMap<Quadrant, Double> gelCartridges,
    @Nullable Double minutes,
    List<PartMinutes> parts,
    int bookedMinutes,
    boolean interrupted,
    List<Observation> findings,
    String note)
    implements Event {

  public VisitDone {
    steps = List.copyOf(steps);
    gelCartridges = Collections.unmodifiableSortedMap(new TreeMap<>(gelCartridges));
    injections = List.copyOf(injections);
    parts = List.copyOf(parts);
    findings = List.copyOf(findings);
  }

  @Override
  public String word() {
    return "visit-done";
  }
}
