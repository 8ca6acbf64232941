package quadrille.plan.course;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Tooth;
import quadrille.plan.work.WorkNote;

/** What the clinician is asked to mind. Prompts, never clearances. */
public sealed interface Caution {

  /** As the practice's file words it for an alert, or as a plan file has it. */
  record AsWritten(String text) implements Caution {}

  /** An alert of which the practice's file says nothing. */
  record UnknownAlert(Alert alert) implements Caution {}

  /** What the chart leaves open, or the plan does not decide. */
  record OfWork(WorkNote note) implements Caution {}

  /** What holds for a plan wherever it is made. */
  enum Known implements Caution {
    /** Nobody has taken the medical history, so that the plan is provisional. */
    HISTORY_NOT_TAKEN,
    /** The patient is under age: consent, referral, doses. */
    CHILD,
    /** The patient is very old: a lower dose. */
    VERY_OLD,
    /** The patient is very light: a lower dose. */
    VERY_LIGHT,
    /** The patient would rather have pocket gel than a needle, and the practice has none. */
    GEL_WOULD_BE_LIKED,
    /** The patient's age is not charted. */
    AGE_NOT_CHARTED,
    /** An implant is worked on: a new sleeve, low power, no bare metal. */
    NEW_SLEEVE,
    /** Lip, cheek or tongue are numb when the visit ends. */
    NUMB_AFTERWARDS,
    /** What is charted within the visit may change the minutes of its fine pass. */
    PROVISIONAL_MINUTES,
    /** The visit ends with charting, and what follows it is planned from the new chart. */
    ENDS_WITH_CHARTING,
    /**
     * A vasoconstrictor is given for the first time: pulse and blood pressure are measured again.
     */
    MEASURE_AFTER_FIRST_CARTRIDGE,
    /** The patient bleeds easily: what stops it lies ready. */
    HAEMOSTATIC_AT_HAND,
    /** Restoration margins or demineralised enamel are near. */
    DELICATE_SURFACES
  }

  /**
   * Each visit takes an antibiotic cover, where the clinician decides on one.
   *
   * @param covers one a visit of this course
   */
  record AntibioticCovers(Alert alert, int covers) implements Caution {}

  /**
   * A block that fails often, so that a second dose may be needed.
   *
   * @param rescue that dose; null where a plan file does not say
   */
  record BlockMayFail(InjectionRef injection, @Nullable Rescue rescue) implements Caution {}

  /**
   * A second dose of a block that failed.
   *
   * @param room whether the day's maximum doses leave room for it
   */
  record Rescue(String agent, double ml, boolean room) {}

  /** A 4 % solution in a lower block, after which paraesthesia is reported more often. */
  record StrongSolutionInBlock(InjectionRef injection, String agent) implements Caution {}

  /**
   * A deep block that comes before the look at the bleeding: it alone numbs the first teeth, or the
   * visit would be longer than is booked.
   */
  record BlockBeforeLook(InjectionRef injection) implements Caution {}

  /** An injection that is planned again did not take in an earlier visit. */
  record DidNotTake(InjectionRef injection, int visit, LocalDate date) implements Caution {}

  /**
   * What was given earlier on the day of the visit, so that its own doses are not the day's.
   *
   * @param injections in the order in which they were given
   * @param gelCartridges of pocket gel; 0 for none
   */
  record GivenThatDay(List<GivenInjection> injections, double gelCartridges) implements Caution {
    public GivenThatDay {
      injections = List.copyOf(injections);
    }
  }

  /**
   * Areas that are begun and left with deposit for a later visit, where an abscess may form.
   *
   * @param areas at least one, in order
   * @param waiting what remains to be done there; empty in older plan files, which did not say
   */
  record LeftOpen(List<AreaRef> areas, List<PlanChange.AreaPass> waiting) implements Caution {
    public LeftOpen {
      areas = List.copyOf(areas);
      waiting = List.copyOf(waiting);
    }
  }

  /** A sleeve broke at an implant in an earlier visit. */
  record SleeveBroke(Tooth implant, int visit, LocalDate date) implements Caution {}
}
