package quadrille.treatment.record;

import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.plan.course.InjectionRef;

/** Something that a visit found. */
public sealed interface Observation {

  /** Where it was found; null for an injection that was given to no single tooth. */
  @Nullable Tooth tooth();

  /**
   * A site probed again.
   *
   * @param site 0 distal, 1 middle, 2 mesial
   * @param depthMm 0 to 20
   * @param bleeding null where it was not looked at
   */
  record Depth(Tooth tooth, Aspect aspect, int site, int depthMm, @Nullable Boolean bleeding)
      implements Observation {}

  /**
   * An injection that did not numb what it should.
   *
   * @param tooth for an injection given tooth by tooth
   * @param minutes that it kept the visit, from finding it out until work went on, what was
   *     injected in its place included; null where nobody noted them
   */
  record FailedInjection(
      String injection, Quadrant quadrant, @Nullable Tooth tooth, @Nullable Double minutes)
      implements Observation {

    public FailedInjection {
      if (minutes != null && !(minutes >= 0)) {
        throw new IllegalArgumentException("The minutes (" + minutes + ") must be 0 or more.");
      }
    }

    /** One whose minutes nobody noted. */
    public FailedInjection(String injection, Quadrant quadrant, @Nullable Tooth tooth) {
      this(injection, quadrant, tooth, null);
    }

    /** Which injection it was. */
    public InjectionRef ref() {
      return new InjectionRef(injection, quadrant, tooth);
    }
  }

  /** Pus came at a tooth or an implant. */
  record Pus(Tooth tooth, Aspect aspect) implements Observation {}

  /** The sleeve broke at an implant. */
  record BrokenSleeve(Tooth tooth) implements Observation {}
}
