package quadrille.plan.work;

import java.util.List;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Figure;

/** What a reader of a mouth's work must know. */
public sealed interface WorkNote {

  /** The teeth concerned, at least one. */
  List<Tooth> teeth();

  /**
   * Sites that could not be probed, so that the work below the margin is provisional.
   *
   * @param takenAsMm the depth that they count as
   * @param afterGross whether a gross pass comes before, after which to chart again
   */
  record Unprobed(List<Tooth> teeth, Figure takenAsMm, boolean afterGross) implements WorkNote {
    public Unprobed {
      teeth = List.copyOf(teeth);
    }
  }

  /**
   * So much was not probed that the mouth is made chartable first, and all that follows is
   * provisional.
   *
   * @param teeth those with sites not probed
   * @param unprobed sites of natural teeth that were not probed
   * @param sites all sites of natural teeth that are worked on
   * @param mostShare of them that may be unprobed
   * @param seconds of work that waits, where a site not probed counts as the provisional depth
   */
  record ChartFirst(List<Tooth> teeth, int unprobed, int sites, Figure mostShare, int seconds)
      implements WorkNote {
    public ChartFirst {
      teeth = List.copyOf(teeth);
    }
  }

  /** Something that holds for some teeth. */
  record Of(Kind kind, List<Tooth> teeth) implements WorkNote {
    public Of {
      teeth = List.copyOf(teeth);
    }
  }

  /** What may hold for some teeth, in the order in which it is said. */
  enum Kind {
    /** Planned for extraction, so no work is planned. */
    PLANNED_EXTRACTION,
    /** Not listed in the chart and taken as missing. */
    UNLISTED,
    /** An implant of 6 mm or more that bled: more than implant care alone. */
    DEEP_IMPLANT,
    /** Sensitive and shallow: no needle is planned, the patient is asked at the chair. */
    ASK_IF_SENSITIVE,
    /** A calculus bridge joins them, and different visits clear it. */
    PARTED_BRIDGE,
    /** No pass is due by the practice's rules. */
    NOTHING_DUE,
    /** The clinician decides how near ultrasonic work may go. */
    RESTORATION_MARGIN,
    /** The clinician decides whether ultrasonic work is safe. */
    DEMINERALISED
  }
}
