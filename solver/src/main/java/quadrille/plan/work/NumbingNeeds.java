package quadrille.plan.work;

import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Gel;
import quadrille.facts.practice.Numbing;
import quadrille.facts.practice.Numbing.Need;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;

/**
 * What must be numb before a tooth is worked on. A sensitive tooth asks for it where the aspect has
 * a site of the practice's depth for that; where it has none, it asks for pocket gel alone.
 *
 * <ul>
 *   <li>Fine: a deep site on the aspect, a sensitive tooth or the patient's wish ask for the pulp
 *       and the gingiva of the aspect.
 *   <li>Gross: a deposit below the margin asks for what the practice says; a sensitive tooth or the
 *       wish for pulp and gingiva of the aspect.
 *   <li>Finishing: a deep site on either aspect, a sensitive tooth or the wish ask for the pulp and
 *       both gingivae.
 *   <li>Implant care: the gingiva of an aspect with a deep site; an implant has no pulp.
 * </ul>
 *
 * The pulp of a lower incisor asks for both its gingivae where the practice says so: infiltrated
 * from one side alone it is not dependably numb.
 *
 * <p>A site that could not be probed has the practice's provisional depth.
 */
public final class NumbingNeeds {

  /** Central and lateral. */
  private static final int INCISORS = 2;

  private final Practice practice;
  private final Patient patient;
  private final boolean gelAllowed;

  public NumbingNeeds(Practice practice, Patient patient) {
    this.practice = practice;
    this.patient = patient;
    this.gelAllowed = PatientRules.of(practice, patient).gelObjections().isEmpty();
  }

  /** What must be numb by injection where no gel serves; may be empty. */
  public SortedSet<Target> of(ToothChart tooth, Pass pass, StepAspect aspect) {
    return of(tooth, pass, aspect, practice.numbing().sensitiveDepthMm().value());
  }

  /** What is numbed by gel where {@link #gelServes} says so: shallow sensitive teeth too. */
  public SortedSet<Target> ofGel(ToothChart tooth, Pass pass, StepAspect aspect) {
    return of(tooth, pass, aspect, 0);
  }

  private SortedSet<Target> of(
      ToothChart tooth, Pass pass, StepAspect aspect, double sensitiveDepthMm) {
    SortedSet<Target> needs = new TreeSet<>();
    List<Aspect> aspects = aspect.aspects();
    switch (pass) {
      case GROSS -> {
        for (Aspect side : aspects) {
          if (asked(tooth, side, sensitiveDepthMm)) {
            addPulp(tooth, needs);
            addTissue(tooth, side, needs);
          } else if (belowMargin(tooth, side)) {
            if (practice.numbing().grossNeeds().contains(Need.PULP)) {
              addPulp(tooth, needs);
            }
            if (practice.numbing().grossNeeds().contains(Need.TISSUE)) {
              addTissue(tooth, side, needs);
            }
          }
        }
      }
      case FINE -> {
        for (Aspect side : aspects) {
          if (deep(tooth, side) || asked(tooth, side, sensitiveDepthMm)) {
            addPulp(tooth, needs);
            addTissue(tooth, side, needs);
          }
        }
      }
      case FINISHING -> {
        if (aspects.stream()
            .anyMatch(side -> deep(tooth, side) || asked(tooth, side, sensitiveDepthMm))) {
          addPulp(tooth, needs);
          aspects.forEach(side -> addTissue(tooth, side, needs));
        }
      }
      case IMPLANT_CARE ->
          aspects.stream()
              .filter(side -> deep(tooth, side))
              .forEach(side -> addTissue(tooth, side, needs));
    }
    return Collections.unmodifiableSortedSet(needs);
  }

  /**
   * Whether pocket gel may stand in for the injections of a step: the practice owns it, the
   * patient's history, age and weight are known, the age suffices and no alert forbids it, the pass
   * is not implant care, every site was probed and none is too deep, and the step ends before the
   * gel wears off.
   *
   * @param teeth all teeth of the step
   * @param seconds the step's working seconds
   */
  public boolean gelServes(List<ToothChart> teeth, Pass pass, StepAspect aspect, int seconds) {
    Gel gel = practice.gel();
    return pass != Pass.IMPLANT_CARE
        && seconds <= gel.lastsMinutes().value() * 60
        && gelAllowed
        && teeth.stream().allMatch(tooth -> shallowEnough(tooth, aspect, gel));
  }

  private static boolean shallowEnough(ToothChart tooth, StepAspect aspect, Gel gel) {
    return aspect.aspects().stream()
        .flatMap(side -> tooth.sites(side).stream())
        .allMatch(site -> site.depthMm() != null && site.depthMm() <= gel.deepestMm().value());
  }

  private boolean asked(ToothChart tooth, Aspect aspect, double sensitiveDepthMm) {
    return patient.wishesNumbness()
        || (tooth.has(Feature.SENSITIVE)
            && Depths.deepest(tooth, aspect, practice.minutes()) >= sensitiveDepthMm);
  }

  private boolean belowMargin(ToothChart tooth, Aspect aspect) {
    Numbing numbing = practice.numbing();
    return tooth.deposit().compareTo(numbing.grossFrom()) >= 0
        && Depths.deepest(tooth, aspect, practice.minutes()) >= numbing.grossDepthMm().value();
  }

  private boolean deep(ToothChart tooth, Aspect aspect) {
    return Depths.deepest(tooth, aspect, practice.minutes())
        >= practice.numbing().fineDepthMm().value();
  }

  private void addPulp(ToothChart tooth, Set<Target> needs) {
    needs.add(new Target(tooth.tooth(), Target.Kind.PULP));
    if (tooth.tooth().quadrant().jaw() == Jaw.UPPER && tooth.tooth().position() == 6) {
      needs.add(new Target(tooth.tooth(), Target.Kind.MESIOBUCCAL_ROOT));
    }
    if (practice.numbing().lowerIncisorsBothSides()
        && tooth.tooth().quadrant().jaw() == Jaw.LOWER
        && tooth.tooth().position() <= INCISORS) {
      addTissue(tooth, Aspect.FACIAL, needs);
      addTissue(tooth, Aspect.LINGUAL, needs);
    }
  }

  private static void addTissue(ToothChart tooth, Aspect aspect, Set<Target> needs) {
    needs.add(
        new Target(
            tooth.tooth(), aspect == Aspect.FACIAL ? Target.Kind.FACIAL : Target.Kind.LINGUAL));
  }
}
