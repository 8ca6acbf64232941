package quadrille.plan.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.History;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Frame;
import quadrille.facts.practice.Objection;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.facts.practice.Technique;
import quadrille.plan.audit.Audit;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Course;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.StopQuestion;
import quadrille.plan.course.Visit;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.WorkNote;

/**
 * What a careful clinician would look for, a row each: a mouth in a few teeth, the rule or the
 * publication that it rests on, and what the plan must do or must not. Every plan shown has passed
 * the audit, or planning would have thrown.
 */
final class ClinicalCasesTest {

  private static final Patient ADULT = new Patient(50, 70.0, null, Set.of(), null, false);

  /** Two deep molars of one side: numb, two blocks in the lower jaw. */
  private static final List<ToothChart> RIGHT_MOLARS = List.of(deep(16), deep(46));

  private static final List<ToothChart> UPPER_MOLAR = List.of(deep(16));

  /** So much of both sides that it takes several visits, and more than an hour in two of them. */
  private static final List<ToothChart> BOTH_SIDES =
      List.of(deep(15), deep(16), deep(46), deep(25), deep(26), deep(36));

  /**
   * One row.
   *
   * @param restsOn the rule of the trade or the publication
   * @param practice members of a practice file
   * @param holds looks at the plan
   */
  private record Case(
      String name,
      String restsOn,
      Patient patient,
      String practice,
      List<ToothChart> teeth,
      Consumer<Planned> holds) {

    @Override
    public String toString() {
      return name + " (" + restsOn + ")";
    }
  }

  /** A plan beside what it was made of. */
  private record Planned(Course course, Practice practice) {

    List<Visit> visits() {
      return course.visits();
    }

    List<Agent> agents() {
      return visits().stream()
          .flatMap(visit -> visit.injections().stream())
          .map(given -> Objects.requireNonNull(practice.agents().get(given.agent())))
          .distinct()
          .toList();
    }

    List<String> injections() {
      return visits().stream()
          .flatMap(visit -> visit.injections().stream())
          .map(GivenInjection::injection)
          .toList();
    }

    long blocks() {
      return visits().stream()
          .flatMap(visit -> visit.injections().stream())
          .filter(
              given ->
                  Objects.requireNonNull(practice.injections().get(given.injection())).technique()
                      == Technique.BLOCK)
          .count();
    }

    /** Each visit's areas, one after the other. */
    Stream<AreaRef> areas() {
      return visits().stream().flatMap(visit -> visit.areas().stream());
    }

    boolean leavesOpen() {
      return visits().stream()
          .flatMap(visit -> visit.cautions().stream())
          .anyMatch(Caution.LeftOpen.class::isInstance);
    }

    Visit visitOf(int iso) {
      return visits().stream()
          .filter(
              visit -> visit.steps().stream().anyMatch(s -> s.teeth().contains(Tooth.ofIso(iso))))
          .findFirst()
          .orElseThrow();
    }

    /** Whether each visit of more than three teeth stops for a look at the bleeding. */
    boolean looksFirst() {
      return visits().stream()
          .allMatch(
              visit ->
                  visit.steps().stream().flatMap(s -> s.teeth().stream()).distinct().count() <= 3
                      || visit.sequence().stream().anyMatch(Entry.Look.class::isInstance));
    }

    Stream<Entry.Debride> steps() {
      return visits().stream().flatMap(visit -> visit.steps().stream());
    }

    boolean everyVisitAsks(String words) {
      return visits().stream()
          .allMatch(
              visit ->
                  visit.stopQuestions().stream()
                      .anyMatch(
                          one ->
                              one instanceof StopQuestion.OfAlert of
                                  && of.question().contains(words)));
    }

    boolean says(String words) {
      return Stream.concat(
              course.cautions().stream(),
              visits().stream().flatMap(visit -> visit.cautions().stream()))
          .anyMatch(
              caution ->
                  caution instanceof Caution.AsWritten written && written.text().contains(words));
    }
  }

  @ParameterizedTest
  @MethodSource("alerts")
  void alertsAct(Case one) throws Exception {
    one.holds().accept(planned(one));
  }

  static Stream<Case> alerts() {
    return Stream.of(
        new Case(
            "history unknown: nothing numbed, and every visit begins with the history",
            "nothing is assumed about a patient",
            ADULT.withHistory(History.UNKNOWN),
            "",
            List.of(deep(16), shallow(36)),
            plan -> {
              assertEquals(0, plan.course().injections());
              assertEquals(new HeldBack.NoHistory(), plan.course().heldBack().get(0).reason());
              assertEquals(Caution.Known.HISTORY_NOT_TAKEN, plan.course().cautions().get(0));
              assertEquals(1, plan.visits().size());
              assertEquals(
                  StopQuestion.Known.TAKE_THE_HISTORY, plan.visits().get(0).stopQuestions().get(0));
            }),
        new Case(
            "history unknown: no gel either",
            "gel has contraindications too: methaemoglobinaemia, product label",
            ADULT.withHistory(History.UNKNOWN),
            "\"gel\": {\"owned\": true}",
            List.of(tooth(16, Deposit.LIGHT, 5), shallow(36)),
            plan -> {
              assertFalse(plan.course().heldBack().isEmpty());
              assertTrue(plan.visits().stream().allMatch(visit -> visit.gelCartridges() == 0));
            }),
        new Case(
            "history taken and clean: the same mouth is numbed, and nothing stops a visit",
            "an empty list is an answer",
            ADULT,
            "",
            List.of(deep(16), shallow(36)),
            plan -> {
              assertTrue(plan.course().injections() > 0);
              assertEquals(List.of(), plan.course().heldBack());
              assertTrue(plan.visits().stream().allMatch(v -> v.stopQuestions().isEmpty()));
            }),
        new Case(
            "heart disease: little epinephrine, no levonordefrin",
            "0.04 mg a visit, weak",
            with(Alert.HEART_DISEASE),
            prefers("mepivacaine-2-levonordefrin-20", "lidocaine-2-100"),
            RIGHT_MOLARS,
            plan -> {
              epinephrineAtMost(plan, 0.04);
              assertTrue(
                  plan.agents().stream()
                      .noneMatch(agent -> agent.vasoconstrictor().equals("levonordefrin")));
              assertTrue(plan.everyVisitAsks("physician"));
            }),
        new Case(
            "heart attack lately: short visits, asked for how long ago",
            "not within 30 days, CDHO 2014; conservative for 6 months, MSD manual 2024",
            with(Alert.RECENT_HEART_ATTACK),
            "",
            BOTH_SIDES,
            plan -> {
              epinephrineAtMost(plan, 0.04);
              bookedAtMost(plan, 60);
              assertTrue(plan.everyVisitAsks("30 days"));
            }),
        new Case(
            "stroke lately: short visits, asked for how long ago",
            "not within 6 months without clearance, CDHO 2017",
            with(Alert.RECENT_STROKE),
            "",
            BOTH_SIDES,
            plan -> {
              bookedAtMost(plan, 60);
              assertTrue(plan.everyVisitAsks("6 months"));
            }),
        new Case(
            "high blood pressure: a cap, and measured at each visit",
            "160/100 and 180/110, Yarows 2020, JADA; the cap an assumption",
            with(Alert.HIGH_BLOOD_PRESSURE),
            "",
            RIGHT_MOLARS,
            plan -> {
              epinephrineAtMost(plan, 0.04);
              assertTrue(plan.everyVisitAsks("160/100"));
            }),
        new Case(
            "endocarditis risk: 10 days apart, covers counted, each visit priced",
            "one dose before every visit, AHA 2007 and 2021; the spacing from memory",
            with(Alert.ENDOCARDITIS_RISK),
            "",
            List.of(deep(16), deep(26)),
            plan -> {
              assertEquals(2, plan.visits().size());
              assertTrue(plan.course().gapMinDays() >= 10);
              assertTrue(
                  plan.course()
                      .cautions()
                      .contains(new Caution.AntibioticCovers(Alert.ENDOCARDITIS_RISK, 2)));
              assertEquals(2 * 1800L, plan.course().cost().terms().get(CourseTerm.VISITS));
              assertTrue(plan.everyVisitAsks("30 to 60 minutes"));
            }),
        new Case(
            "healthy: blocks where they are cheaper",
            "textbook coverage",
            ADULT,
            "",
            List.of(deep(16), deep(17)),
            plan -> assertTrue(plan.blocks() > 1)),
        new Case(
            "warfarin: infiltrations, where both would do",
            "infiltration before block, SDCEP 2022",
            with(Alert.WARFARIN),
            "",
            List.of(deep(16), deep(17)),
            plan -> {
              // The palate has no infiltration.
              assertTrue(plan.blocks() <= 1);
              assertTrue(plan.everyVisitAsks("INR"));
            }),
        new Case(
            "warfarin: the long buccal stays a small one, no infiltration of each molar",
            "which blocks are deep: common practice, no source",
            with(Alert.WARFARIN),
            "",
            List.of(deep(46), deep(47)),
            plan ->
                assertEquals(
                    Set.of("inferior alveolar", "long buccal"), Set.copyOf(plan.injections()))),
        new Case(
            "warfarin: the palate is numbed by its one block, no needle for each tooth",
            "which blocks are deep: common practice, no source",
            with(Alert.WARFARIN),
            "",
            List.of(deep(14), deep(15), deep(16), deep(17)),
            plan -> {
              assertTrue(plan.injections().contains("greater palatine"));
              assertFalse(plan.injections().contains("palatal infiltration"));
              assertFalse(plan.injections().contains("posterior superior alveolar"));
              assertFalse(plan.injections().contains("infraorbital"));
            }),
        new Case(
            "a practice's own file that does not say which are superficial: each block is priced",
            "infiltration before block, SDCEP 2022",
            with(Alert.WARFARIN),
            "\"injections\": {\"greater palatine\": {\"superficial\": null}}",
            List.of(deep(14)),
            plan -> assertFalse(plan.injections().contains("greater palatine"))),
        new Case(
            "direct oral anticoagulant: no dose missed, nothing about the INR",
            "SDCEP 2022 and its companion page",
            with(Alert.DIRECT_ORAL_ANTICOAGULANT),
            "",
            UPPER_MOLAR,
            plan -> {
              assertTrue(plan.everyVisitAsks("no dose of the anticoagulant missed"));
              assertFalse(plan.everyVisitAsks("INR"));
            }),
        new Case(
            "anticoagulant, not said which: the questions of both",
            "the stricter of warfarin and the direct oral ones",
            with(Alert.ANTICOAGULANT),
            "",
            List.of(deep(16), deep(17)),
            plan -> {
              assertTrue(plan.everyVisitAsks("Which anticoagulant"));
              assertTrue(plan.everyVisitAsks("INR"));
              assertTrue(plan.everyVisitAsks("no dose of the anticoagulant missed"));
              assertTrue(plan.blocks() <= 1);
            }),
        new Case(
            "bleeding disorder: infiltrations, and the haematologist asked",
            "common practice, no source",
            with(Alert.BLEEDING_DISORDER),
            "",
            List.of(deep(16), deep(17)),
            plan -> {
              assertTrue(plan.blocks() <= 1);
              assertTrue(plan.everyVisitAsks("haematologist"));
            }),
        new Case(
            "diabetes: an hour at most, and never all on one day",
            "Graziani 2023, J Clin Periodontol 50:487; the hour an assumption",
            with(Alert.DIABETES),
            "\"appointments\": {\"gapMinDays\": 0}",
            BOTH_SIDES,
            plan -> {
              bookedAtMost(plan, 60);
              assertTrue(plan.course().gapMinDays() >= 1);
              assertTrue(plan.everyVisitAsks("Eaten"));
            }),
        new Case(
            "pregnancy: an hour at most",
            "short visits late, trade guidance; the hour an assumption",
            with(Alert.PREGNANCY),
            "",
            BOTH_SIDES,
            plan -> bookedAtMost(plan, 60)),
        new Case(
            "anxious: an hour at most",
            "common practice, no source; the hour an assumption",
            with(Alert.ANXIOUS),
            "",
            BOTH_SIDES,
            plan -> {
              bookedAtMost(plan, 60);
              assertTrue(plan.everyVisitAsks("go on today"));
            }),
        new Case(
            "methaemoglobinaemia: no prilocaine, no gel, benzocaine named, articaine warned of",
            "product labels; articaine's since 2018",
            with(Alert.METHAEMOGLOBINAEMIA_RISK),
            "\"gel\": {\"owned\": true}, " + prefers("prilocaine-4", "articaine-4-200"),
            List.of(tooth(16, Deposit.LIGHT, 5)),
            plan -> {
              assertEquals(List.of("articaine"), plan.agents().stream().map(Agent::drug).toList());
              assertTrue(plan.says("benzocaine"));
              assertTrue(plan.says("Articaine with a risk of methaemoglobinaemia"));
            }),
        new Case(
            "sulfite allergy: plain solutions only",
            "solutions with a vasoconstrictor hold sulfite, labels",
            with(Alert.SULFITE_ALLERGY),
            "",
            UPPER_MOLAR,
            ClinicalCasesTest::plainOnly),
        new Case(
            "sulfite allergy and a risk of methaemoglobinaemia: what no agent lasts for waits, and"
                + " the rest is planned",
            "plain mepivacaine alone is left; of a practice whose blocks of it last 15 minutes, as"
                + " long as a lower block takes",
            with(Alert.SULFITE_ALLERGY, Alert.METHAEMOGLOBINAEMIA_RISK),
            "\"agents\": {\"mepivacaine-3\": {\"pulpalMinutes\": {\"block\": 15}}}",
            List.of(deep(46), shallow(26)),
            plan -> {
              assertEquals(0, plan.course().injections());
              assertEquals(26, plan.steps().findFirst().orElseThrow().teeth().get(0).iso());
              assertEquals(
                  Set.of(new HeldBack.NoAgentServes(List.of("mepivacaine-3"), false)),
                  plan.course().heldBack().stream()
                      .map(HeldBack::root)
                      .collect(Collectors.toSet()));
              assertTrue(plan.everyVisitAsks("sulfite"));
              assertTrue(plan.everyVisitAsks("benzocaine"));
            }),
        new Case(
            "plain mepivacaine serves a lower block for 40 minutes, and what is worked on under it",
            "20 minutes in the upper jaw, 40 in the lower: Malamed, copy",
            with(Alert.SULFITE_ALLERGY, Alert.METHAEMOGLOBINAEMIA_RISK),
            "",
            List.of(deep(46)),
            plan -> {
              assertEquals(List.of(), plan.course().heldBack());
              assertEquals(
                  List.of("mepivacaine-3"), plan.agents().stream().map(Agent::name).toList());
              assertTrue(plan.injections().contains("inferior alveolar"));
            }),
        new Case(
            "a dose that suffices for no part of an area: the work waits, and the rest is planned",
            "4.4 mg/kg: copy of a national reference table",
            ADULT.withAgeYears(3).withWeightKg(4.0),
            prefers("lidocaine-2-100"),
            List.of(deep(46), shallow(26)),
            plan -> {
              assertEquals(0, plan.course().injections());
              assertEquals(
                  Set.of(new HeldBack.NoAgentServes(List.of("lidocaine-2-100"), true)),
                  plan.course().heldBack().stream()
                      .map(HeldBack::root)
                      .collect(Collectors.toSet()));
            }),
        new Case(
            "an agent that lasts for half of an area: it is cut between two teeth",
            "the dose and the clock bind each visit: common practice, no source",
            ADULT,
            "\"agents\": {\"lidocaine-2-100\": {\"pulpalMinutes\": {\"infiltration\": 20,"
                + " \"block\": 20}}}, "
                + prefers("lidocaine-2-100"),
            List.of(deep(15), deep(17)),
            plan -> {
              assertEquals(List.of(), plan.course().heldBack());
              assertEquals(2, plan.visits().size());
            }),
        new Case(
            "cocaine: nothing with a vasoconstrictor, and asked for the last 24 hours",
            "Yagiela 1999, JADA; the 24 hours from memory",
            with(Alert.COCAINE),
            "",
            UPPER_MOLAR,
            plan -> {
              plainOnly(plan);
              assertTrue(plan.everyVisitAsks("24 hours"));
            }),
        new Case(
            "amide allergy: no amide, no gel, and the work waits",
            "labels; all agents of the default are amides",
            with(Alert.AMIDE_ALLERGY),
            "\"gel\": {\"owned\": true}",
            List.of(tooth(16, Deposit.LIGHT, 5), shallow(36)),
            plan -> {
              assertEquals(0, plan.course().injections());
              assertTrue(plan.visits().stream().allMatch(visit -> visit.gelCartridges() == 0));
              HeldBack.NoAgent none =
                  assertInstanceOf(
                      HeldBack.NoAgent.class, plan.course().heldBack().get(0).reason());
              assertTrue(
                  none.agents().stream()
                      .allMatch(
                          one ->
                              one.why()
                                  .contains(
                                      new Objection.Forbidden(
                                          Alert.AMIDE_ALLERGY, Objection.Forbidden.AMIDES))));
            }),
        new Case(
            "non-selective beta-blocker: little epinephrine",
            "Yagiela 1999, JADA; 0.04 mg from memory",
            with(Alert.BETA_BLOCKER),
            "",
            RIGHT_MOLARS,
            plan -> epinephrineAtMost(plan, 0.04)),
        new Case(
            "tricyclic: no levonordefrin",
            "Yagiela 1999, JADA; from memory",
            with(Alert.TRICYCLIC),
            prefers("mepivacaine-2-levonordefrin-20", "lidocaine-2-100"),
            UPPER_MOLAR,
            plan ->
                assertEquals(
                    List.of("lidocaine"), plan.agents().stream().map(Agent::drug).toList())),
        new Case(
            "hyperthyroid: little epinephrine, and asked whether it is controlled",
            "from memory; the cap an assumption",
            with(Alert.HYPERTHYROID),
            "",
            RIGHT_MOLARS,
            plan -> {
              epinephrineAtMost(plan, 0.04);
              assertTrue(plan.everyVisitAsks("controlled"));
            }),
        new Case(
            "liver disease: warned of articaine's dose where it is given",
            "articaine's label",
            with(Alert.LIVER_DISEASE),
            prefers("articaine-4-200"),
            UPPER_MOLAR,
            plan -> assertTrue(plan.says("Articaine with liver disease"))),
        new Case(
            "liver disease: not warned of what is not given",
            "articaine's label",
            with(Alert.LIVER_DISEASE),
            prefers("lidocaine-2-100"),
            UPPER_MOLAR,
            plan -> assertFalse(plan.says("Articaine with liver disease"))),
        new Case(
            "needle-averse: each injection weighs double, and gel would be liked",
            "assumption",
            with(Alert.NEEDLE_AVERSE),
            "",
            UPPER_MOLAR,
            plan -> {
              assertEquals(
                  120L * plan.course().injections(),
                  plan.course().cost().terms().get(CourseTerm.INJECTIONS));
              assertTrue(plan.course().cautions().contains(Caution.Known.GEL_WOULD_BE_LIKED));
            }),
        new Case(
            "needle-averse, where there is gel: no needle where it serves",
            "Jeffcoat 2001, J Periodontol 72:895",
            with(Alert.NEEDLE_AVERSE),
            "\"gel\": {\"owned\": true}",
            List.of(tooth(14, Deposit.LIGHT, 5)),
            plan -> {
              assertEquals(0, plan.course().injections());
              assertFalse(plan.course().cautions().contains(Caution.Known.GEL_WOULD_BE_LIKED));
            }),
        new Case(
            "needle-averse, where there is gel: a pocket too deep for it is injected",
            "6 mm at the deepest: assumption",
            with(Alert.NEEDLE_AVERSE),
            "\"gel\": {\"owned\": true}",
            List.of(tooth(14, Deposit.LIGHT, 7)),
            plan -> {
              assertTrue(plan.course().injections() > 0);
              assertEquals(0, plan.visits().get(0).gelCartridges());
            }),
        new Case(
            "needle-averse: topical anaesthetic is asked about before anything is touched",
            "5 minutes in the fold, palate resistant: Meechan 2002, Dent Clin N Am 46:759",
            with(Alert.NEEDLE_AVERSE),
            "",
            UPPER_MOLAR,
            plan -> assertTrue(plan.everyVisitAsks("Topical anaesthetic needs 5 minutes"))),
        new Case(
            "pacemaker: the cardiologist asked before ultrasonic work",
            "ADA topic page",
            with(Alert.PACEMAKER),
            "",
            UPPER_MOLAR,
            plan -> assertTrue(plan.everyVisitAsks("cardiologist"))),
        new Case(
            "difficulty swallowing: by hand, which takes longer, no tip changed, and the tray says"
                + " so",
            "1 / 0.634, Tunkel 2002; that the unit is not used, an assumption",
            with(Alert.SWALLOWING_DIFFICULTY),
            "",
            List.of(deep(15), implant(16)),
            plan -> {
              assertEquals(
                  Set.of("hand instruments", "hand instruments for implants"),
                  new TreeSet<>(plan.visits().get(0).tray()));
              assertEquals(0, plan.course().tipChanges());
              assertEquals(0, plan.visits().get(0).sleeves());
              assertTrue(plan.steps().allMatch(step -> step.power() == Power.NONE));
              // 45 s a side for heavy deposit, crown factor 1.2; 120 s an implant.
              assertEquals(
                  List.of(85, 85, 189),
                  plan.steps()
                      .filter(step -> step.pass() == Pass.GROSS || step.pass() == Pass.IMPLANT_CARE)
                      .map(Entry.Debride::seconds)
                      .sorted()
                      .toList());
            }),
        new Case(
            "respiratory infection: no aerosol is planned",
            "from memory; by hand an assumption",
            with(Alert.RESPIRATORY_INFECTION),
            "",
            UPPER_MOLAR,
            plan -> {
              assertEquals(List.of("hand instruments"), plan.visits().get(0).tray());
              assertTrue(plan.everyVisitAsks("visit waits"));
            }),
        new Case(
            "antiplatelet: none is stopped, and few teeth come first",
            "SDCEP 2022; three teeth an assumption, as with the direct oral ones",
            with(Alert.ANTIPLATELET),
            "",
            List.of(deep(14), deep(15), deep(16), deep(17)),
            plan -> {
              assertTrue(plan.everyVisitAsks("None is stopped"));
              assertTrue(plan.looksFirst());
            }),
        new Case(
            "chemotherapy: the place in the cycle, and few teeth first",
            "BC Cancer 2003; three teeth an assumption",
            with(Alert.CHEMOTHERAPY),
            "",
            List.of(deep(14), deep(15), deep(16), deep(17)),
            plan -> {
              assertTrue(plan.everyVisitAsks("cycle"));
              assertTrue(plan.looksFirst());
            }),
        new Case(
            "antiresorptive: asked for exposed bone, and debrided",
            "the risk is extraction and surgery, SIOT and SIdP 2023",
            with(Alert.ANTIRESORPTIVE),
            "",
            UPPER_MOLAR,
            plan -> assertTrue(plan.everyVisitAsks("exposed bone"))),
        new Case(
            "jaw irradiated: the radiation team asked, and debrided",
            "debridement rather than extraction, Australian guidelines",
            with(Alert.JAW_IRRADIATED),
            "",
            UPPER_MOLAR,
            plan -> assertTrue(plan.everyVisitAsks("radiation team"))),
        new Case(
            "kidney disease: the medicines asked for",
            "assumption",
            with(Alert.KIDNEY_DISEASE),
            "",
            UPPER_MOLAR,
            plan -> assertTrue(plan.everyVisitAsks("which medicines"))),
        new Case(
            "dialysis: the day after",
            "course text, weak",
            with(Alert.DIALYSIS),
            "",
            UPPER_MOLAR,
            plan -> assertTrue(plan.everyVisitAsks("day after"))),
        new Case(
            "asthma: the inhaler is here",
            "CDHO",
            with(Alert.ASTHMA),
            "",
            UPPER_MOLAR,
            plan -> assertTrue(plan.everyVisitAsks("inhaler"))),
        new Case(
            "epilepsy: controlled, and no implanted stimulator",
            "CDHO",
            with(Alert.EPILEPSY),
            "",
            UPPER_MOLAR,
            plan -> assertTrue(plan.everyVisitAsks("stimulator"))),
        new Case(
            "joint replacement: no antibiotic without a past complication",
            "ADA 2015",
            with(Alert.JOINT_REPLACEMENT),
            "",
            UPPER_MOLAR,
            plan -> assertTrue(plan.everyVisitAsks("complication"))),
        new Case(
            "latex allergy: everything free of it",
            "from memory",
            with(Alert.LATEX_ALLERGY),
            "",
            UPPER_MOLAR,
            plan -> assertTrue(plan.everyVisitAsks("free of latex"))),
        new Case(
            "chlorhexidine allergy: none on the tray",
            "deaths reported, Pemberton and Gibson 2012, BDJ; MHRA 2012",
            with(Alert.CHLORHEXIDINE_ALLERGY),
            "",
            UPPER_MOLAR,
            plan -> assertTrue(plan.everyVisitAsks("no chlorhexidine"))),
        new Case(
            "immunosuppressed: the blood count asked for",
            "AAPD, BC Cancer",
            with(Alert.IMMUNOSUPPRESSED),
            "",
            UPPER_MOLAR,
            plan -> assertTrue(plan.everyVisitAsks("1,000 neutrophils"))),
        new Case(
            "a child of 8: no bupivacaine, though the practice likes it best",
            "not under 12, course text, weak",
            ADULT.withAgeYears(8).withWeightKg(26.0),
            prefers("bupivacaine-0.5-200", "lidocaine-2-100"),
            UPPER_MOLAR,
            plan -> {
              assertEquals(List.of("lidocaine"), plan.agents().stream().map(Agent::drug).toList());
              assertTrue(plan.course().cautions().contains(Caution.Known.CHILD));
            }),
        new Case(
            "a child of 3: no articaine, and the work waits where there is nothing else",
            "articaine from 4 years, label",
            ADULT.withAgeYears(3).withWeightKg(15.0),
            prefers("articaine-4-200"),
            List.of(deep(16), shallow(36)),
            plan -> {
              HeldBack.NoAgent none =
                  assertInstanceOf(
                      HeldBack.NoAgent.class, plan.course().heldBack().get(0).reason());
              assertEquals(List.of(new Objection.TooYoung(4, 3)), none.agents().get(0).why());
            }),
        new Case(
            "a patient of 13: articaine may be had",
            "articaine from 4 years, label",
            ADULT.withAgeYears(13).withWeightKg(48.0),
            prefers("articaine-4-200"),
            UPPER_MOLAR,
            plan ->
                assertEquals(
                    List.of("articaine"), plan.agents().stream().map(Agent::drug).toList())),
        new Case(
            "age not charted: no agent with an age limit",
            "nothing is assumed about a patient",
            ADULT.withAgeYears(null),
            prefers("articaine-4-200", "lidocaine-2-100"),
            UPPER_MOLAR,
            plan -> {
              assertEquals(List.of("lidocaine"), plan.agents().stream().map(Agent::drug).toList());
              assertTrue(plan.course().cautions().contains(Caution.Known.AGE_NOT_CHARTED));
            }),
        new Case(
            "an adult of ordinary age and weight: nothing to prompt",
            "common practice, no source",
            ADULT,
            "",
            UPPER_MOLAR,
            plan ->
                assertTrue(
                    plan.course().cautions().stream().noneMatch(Caution.Known.class::isInstance))),
        new Case(
            "very old and very light: the clinician is prompted",
            "reduce for the old, articaine's label; the limits assumptions",
            ADULT.withAgeYears(88).withWeightKg(41.0),
            "",
            UPPER_MOLAR,
            plan -> {
              List<Caution> both = List.of(Caution.Known.VERY_OLD, Caution.Known.VERY_LIGHT);
              assertTrue(plan.course().cautions().containsAll(both));
              // A sheet is read by itself.
              plan.visits().forEach(visit -> assertTrue(visit.cautions().containsAll(both)));
            }));
  }

  @ParameterizedTest
  @MethodSource("courses")
  void coursesAreAsTheTradeHasThem(Case one) throws Exception {
    one.holds().accept(planned(one));
  }

  static Stream<Case> courses() {
    return Stream.of(
        new Case(
            "an area that is begun is finished in its visit",
            "the rule of the trade: common practice, no source",
            ADULT,
            "",
            BOTH_SIDES,
            plan -> {
              assertEquals(
                  plan.areas().distinct().count(), plan.areas().count(), "an area in two visits");
              assertFalse(plan.leavesOpen());
            }),
        new Case(
            "within days: an alert's longer gap stands, and so no area is left open",
            "10 days between antibiotic covers, from memory",
            with(Alert.ENDOCARDITIS_RISK),
            "\"appointments\": {\"passesTogether\": \"within-days 4\"}",
            BOTH_SIDES,
            plan -> {
              assertTrue(plan.course().gapMinDays() >= 10);
              assertEquals(List.of(), plan.course().finishWithin());
              assertFalse(plan.leavesOpen());
            }),
        new Case(
            "one numb side: what lies on both sides takes two visits",
            "one numb side: common practice, no source",
            ADULT,
            "",
            List.of(deep(46), deep(36)),
            plan -> assertEquals(2, plan.visits().size())),
        new Case(
            "never right and left mental injections in one visit, whatever the practice relaxes",
            "both lower lips numb: common practice, no source",
            ADULT,
            "\"appointments\": {\"oneNumbSide\": false}, \"injections\": {\"inferior alveolar\":"
                + " null}",
            List.of(facialOnly(44), facialOnly(34)),
            plan -> {
              assertEquals(2, plan.visits().size());
              assertTrue(
                  plan.visits().stream()
                      .flatMap(visit -> visit.injections().stream())
                      .allMatch(given -> given.injection().equals("mental and incisive")));
            }),
        new Case(
            "the worst area of a visit comes first",
            "worst first: common practice, no source",
            ADULT,
            "",
            List.of(tooth(16, Deposit.LIGHT, 5), tooth(12, Deposit.LIGHT, 9)),
            plan ->
                assertEquals(
                    "UR anterior", plan.steps().findFirst().orElseThrow().area().toString())),
        new Case(
            "upper and lower of a side are two stretches, not back and forth",
            "upper and lower of one side together: common practice, no source",
            ADULT,
            "",
            RIGHT_MOLARS,
            plan -> assertEquals(0L, plan.course().cost().terms().get(CourseTerm.RETURNS))),
        new Case(
            "nothing is touched before it is numb, where an alert asks for it",
            "common practice, no source",
            with(Alert.ANXIOUS),
            "\"alerts\": {\"anxious\": {\"numbFirst\": true}}",
            RIGHT_MOLARS,
            plan ->
                assertTrue(
                    plan.visits().stream().allMatch(visit -> visit.steps().get(0).needsNumb()))),
        new Case(
            "bleeds easily: no deep needle before the first look where the visit can begin without",
            "infiltration before block, and a look: SDCEP 2022; ten minutes an assumption",
            with(Alert.WARFARIN),
            "",
            List.of(deep(46), deep(47), shallow(12), shallow(11)),
            plan -> {
              assertEquals(1, plan.visits().size());
              assertEquals(0L, plan.course().cost().terms().get(CourseTerm.BLOCKS_BEFORE_LOOK));
              List<Entry> sequence = plan.visits().get(0).sequence();
              assertTrue(
                  at(sequence, Entry.Kind.LOOK) < at(sequence, Entry.Kind.INJECT),
                  sequence.toString());
            }),
        new Case(
            "bleeds easily: a deep needle that must come first is priced and said",
            "infiltration before block: SDCEP 2022; ten minutes an assumption",
            with(Alert.WARFARIN),
            "",
            List.of(deep(44), deep(45), deep(46), deep(47)),
            plan -> {
              assertEquals(
                  plan.visits().stream()
                      .flatMap(visit -> visit.cautions().stream())
                      .filter(Caution.BlockBeforeLook.class::isInstance)
                      .count(),
                  plan.course().cost().terms().get(CourseTerm.BLOCKS_BEFORE_LOOK) / 600);
              assertTrue(plan.course().cost().terms().get(CourseTerm.BLOCKS_BEFORE_LOOK) > 0);
            }),
        new Case(
            "bleeds easily: gauze on the tray, and a last look before the patient leaves",
            "local haemostasis: SDCEP 2022; last look: common practice, no source",
            with(Alert.ANTIPLATELET),
            "",
            List.of(shallow(11)),
            plan -> {
              Visit visit = plan.visits().get(0);
              assertTrue(visit.cautions().contains(Caution.Known.HAEMOSTATIC_AT_HAND));
              assertTrue(at(visit.sequence(), Entry.Kind.LAST_LOOK) > 0);
            }),
        new Case(
            "nobody else has a last look",
            "common practice, no source",
            ADULT,
            "",
            List.of(shallow(11)),
            plan -> {
              Visit visit = plan.visits().get(0);
              assertFalse(visit.cautions().contains(Caution.Known.HAEMOSTATIC_AT_HAND));
              assertEquals(-1, at(visit.sequence(), Entry.Kind.LAST_LOOK));
            }),
        new Case(
            "one shallow sensitive tooth: no needle, the patient is asked at the chair",
            "no needle for a few minutes: assumption",
            ADULT,
            "",
            List.of(sensitive(46, 4)),
            plan -> {
              assertEquals(0, plan.course().injections());
              assertTrue(
                  plan.visits()
                      .get(0)
                      .cautions()
                      .contains(
                          new Caution.OfWork(
                              new WorkNote.Of(
                                  WorkNote.Kind.ASK_IF_SENSITIVE, List.of(Tooth.ofIso(46))))));
            }),
        new Case(
            "one shallow sensitive tooth: pocket gel where the practice has it",
            "no needle for a few minutes: assumption",
            ADULT,
            "\"gel\": {\"owned\": true}",
            List.of(sensitive(46, 4)),
            plan -> {
              assertEquals(0, plan.course().injections());
              assertTrue(plan.visits().get(0).gelCartridges() > 0);
            }),
        new Case(
            "a deep sensitive tooth is numbed as ever",
            "common practice, no source",
            ADULT,
            "",
            List.of(sensitive(46, 6)),
            plan -> assertTrue(plan.course().injections() > 0)),
        new Case(
            "weight unknown: weigh first, which the visit asks before anything is touched",
            "no dose without a weight; nothing is assumed about a patient",
            ADULT.withWeightKg(null),
            "",
            List.of(deep(16), shallow(36)),
            plan -> {
              assertEquals(new HeldBack.NoWeight(), plan.course().heldBack().get(0).root());
              assertTrue(
                  plan.visits()
                      .get(0)
                      .stopQuestions()
                      .contains(StopQuestion.Known.WEIGH_THE_PATIENT));
            }),
        new Case(
            "weight unknown, and nothing waits for it: nobody is weighed for nothing",
            "common practice, no source",
            ADULT.withWeightKg(null),
            "",
            List.of(shallow(36)),
            plan -> assertEquals(List.of(), plan.visits().get(0).stopQuestions())),
        new Case(
            "a block is tested before the first stroke under it, and only then",
            "a lower block fails in 15 to 20 %: Lee and Yang 2019, J Dent Anesth Pain Med 19:125",
            ADULT,
            "",
            RIGHT_MOLARS,
            plan -> {
              Visit visit = plan.visitOf(46);
              List<Entry.Debride> tested =
                  visit.steps().stream()
                      .filter(step -> !visit.testedBefore(step).isEmpty())
                      .toList();
              assertEquals(1, tested.size());
              assertEquals(
                  tested.get(0),
                  visit.steps().stream()
                      .filter(step -> step.needsNumb() && step.area().quadrant() == Quadrant.LR)
                      .findFirst()
                      .orElseThrow());
            }),
        new Case(
            "of two agents that serve, no 4 % solution in a lower block, whatever is preferred",
            "paraesthesia 3.6 times as often as expected: Garisto 2010, JADA; the price an"
                + " assumption",
            ADULT,
            prefers("articaine-4-100", "lidocaine-2-100"),
            List.of(deep(46)),
            plan -> {
              assertEquals(List.of("lidocaine"), plan.agents().stream().map(Agent::drug).toList());
            }),
        new Case(
            "an upper jaw has the agent that is preferred",
            "the practice's choice",
            ADULT,
            prefers("articaine-4-100", "lidocaine-2-100"),
            UPPER_MOLAR,
            plan ->
                assertEquals(
                    List.of("articaine"), plan.agents().stream().map(Agent::drug).toList())),
        new Case(
            "where the 4 % solution alone serves, its lower block is priced",
            "Garisto 2010, JADA; 300 s an assumption",
            ADULT,
            prefers("articaine-4-100"),
            List.of(deep(46)),
            plan -> {
              long each = 60L * plan.course().injections();
              assertEquals(each + 300, plan.course().cost().terms().get(CourseTerm.INJECTIONS));
            }),
        new Case(
            "heart disease: pulse and pressure again after the first cartridge",
            "little epinephrine: course text, weak; measured again: common practice, no source",
            with(Alert.HEART_DISEASE),
            "",
            RIGHT_MOLARS,
            plan ->
                plan.visits()
                    .forEach(
                        visit ->
                            assertTrue(
                                visit
                                    .cautions()
                                    .contains(Caution.Known.MEASURE_AFTER_FIRST_CARTRIDGE)))),
        new Case(
            "an area is numbed before it is begun, not between its two sides",
            "common practice, no source",
            ADULT,
            "",
            List.of(facialOnly(46), shallow(16)),
            plan ->
                assertEquals(0L, plan.course().cost().terms().get(CourseTerm.NEEDLES_WITHIN_AREA))),
        new Case(
            "no needle for a few minutes' work where a visit numbs that place already",
            "common practice, no source",
            ADULT,
            "",
            List.of(deep(14), deep(15), deep(16), tooth(13, Deposit.LIGHT, 5), deep(24), deep(26)),
            plan -> {
              Visit right = plan.visitOf(16);
              assertEquals(right, plan.visitOf(13));
              assertTrue(
                  plan.visitOf(26).injections().stream()
                      .noneMatch(
                          given -> given.quadrant() == Quadrant.UR && given.tooth() != null));
            }),
        new Case(
            "a block that fails: room for one more, and nothing is paid",
            "15 to 20 %, Lee and Yang 2019, J Dent Anesth Pain Med 19:125",
            ADULT,
            "",
            List.of(deep(46)),
            plan -> {
              assertEquals(true, plan.visits().get(0).rescue());
              assertEquals(0L, plan.course().cost().terms().get(CourseTerm.NO_ROOM_TO_REPEAT));
            }),
        new Case(
            "a block that fails: no room, which costs and is said, and still is a plan",
            "15 to 20 %, Lee and Yang 2019; ten minutes an assumption",
            ADULT,
            "\"epinephrineCapMg\": 0.02, " + prefers("lidocaine-2-100"),
            List.of(deep(46)),
            plan -> {
              assertEquals(false, plan.visits().get(0).rescue());
              assertEquals(600L, plan.course().cost().terms().get(CourseTerm.NO_ROOM_TO_REPEAT));
            }),
        new Case(
            "at most two agents in a visit, and their shares within the maximum together",
            "toxicity is additive, from memory",
            ADULT,
            "",
            List.of(deep(46), deep(31), deep(41), deep(16)),
            plan ->
                plan.visits()
                    .forEach(
                        visit -> {
                          assertTrue(visit.doses().size() <= 2);
                          assertTrue(visit.doseShare() <= 1);
                        })),
        new Case(
            "an implant of 6 mm that bleeds is never two minutes without a word",
            "probing 6 mm or more with bleeding, Berglundh 2018, from memory",
            ADULT,
            "",
            List.of(bleedingImplant(46)),
            plan ->
                assertTrue(
                    plan.visits().get(0).cautions().stream()
                        .anyMatch(
                            one ->
                                one instanceof Caution.OfWork work
                                    && work.note()
                                        .equals(
                                            new WorkNote.Of(
                                                WorkNote.Kind.DEEP_IMPLANT,
                                                List.of(Tooth.ofIso(46))))))),
        new Case(
            "an implant takes a new sleeve each visit, never bare metal",
            "sleeves: Sahrmann 2021, doi 10.1186/s12903-020-01384-0",
            ADULT,
            "",
            List.of(implant(46), implant(36)),
            plan -> {
              assertTrue(plan.visits().stream().allMatch(visit -> visit.sleeves() == 1));
              assertTrue(
                  plan.steps().allMatch(step -> step.insert().equals("sleeved for implants")));
            }),
        new Case(
            "gel is for adults",
            "adults only, product label",
            ADULT.withAgeYears(13).withWeightKg(48.0),
            "\"gel\": {\"owned\": true}",
            List.of(tooth(14, Deposit.LIGHT, 5)),
            plan -> {
              assertTrue(plan.course().injections() > 0);
              assertEquals(0, plan.visits().get(0).gelCartridges());
            }),
        new Case(
            "endocarditis risk: what one visit fewer would need is said beside the covers",
            "fewer visits: AHA 2007, 2021",
            with(Alert.ENDOCARDITIS_RISK),
            "\"appointments\": {\"longestVisitMinutes\": 60}",
            List.of(deep(14), deep(15), deep(16), deep(17), deep(44), deep(45), deep(46), deep(47)),
            plan -> {
              int visits = plan.visits().size();
              assertTrue(visits > 1);
              assertTrue(
                  plan.course()
                      .cautions()
                      .contains(new Caution.AntibioticCovers(Alert.ENDOCARDITIS_RISK, visits)));
              assertTrue(plan.course().reasons().oneVisitFewer() != null);
            }),
        new Case(
            "few teeth first: the cut does not run through a calculus bridge",
            "at most three teeth first: SDCEP; a bridge breaks off whole: common practice, no"
                + " source",
            with(Alert.WARFARIN),
            "",
            List.of(deep(44), bridged(45), bridged(46), deep(47)),
            plan ->
                plan.visits().stream()
                    .flatMap(visit -> visit.areas().stream())
                    .forEach(
                        area ->
                            assertEquals(
                                area.holds(Tooth.ofIso(45)),
                                area.holds(Tooth.ofIso(46)),
                                area.toString()))),
        new Case(
            "a calculus bridge across the midline that two visits clear is named in both",
            "common practice, no source",
            ADULT,
            "",
            List.of(bridged(43), bridged(42), bridged(41), bridged(31), bridged(32), bridged(33)),
            plan -> {
              assertEquals(2, plan.visits().size());
              for (Visit visit : plan.visits()) {
                assertTrue(
                    visit
                        .cautions()
                        .contains(
                            new Caution.OfWork(
                                new WorkNote.Of(
                                    WorkNote.Kind.PARTED_BRIDGE,
                                    List.of(Tooth.ofIso(31), Tooth.ofIso(41))))));
              }
            }),
        new Case(
            "a calculus bridge of the incisors is cleared in one visit, and nothing said of it",
            "infiltration of lower incisors: J Endod 2023",
            ADULT,
            "",
            List.of(bridged(42), bridged(41), bridged(31), bridged(32)),
            plan -> {
              assertEquals(1, plan.visits().size());
              assertTrue(
                  plan.visits().get(0).cautions().stream()
                      .noneMatch(
                          one ->
                              one instanceof Caution.OfWork work
                                  && work.note() instanceof WorkNote.Of of
                                  && of.kind() == WorkNote.Kind.PARTED_BRIDGE));
            }),
        new Case(
            "what an alert cautions stands on the sheet of every visit",
            "a sheet is read by itself: common practice, no source",
            with(Alert.WARFARIN, Alert.DIABETES),
            "",
            BOTH_SIDES,
            plan -> {
              assertTrue(plan.visits().size() > 1);
              for (Alert alert : List.of(Alert.WARFARIN, Alert.DIABETES)) {
                List<String> texts =
                    PracticeReader.defaults().alertRule(alert).orElseThrow().cautions();
                assertFalse(texts.isEmpty());
                for (Visit visit : plan.visits()) {
                  texts.forEach(
                      text ->
                          assertTrue(visit.cautions().contains(new Caution.AsWritten(text)), text));
                }
              }
            }),
        new Case(
            "difficulty swallowing: nothing is rinsed with",
            "assumption: what is held in the mouth may be swallowed the wrong way",
            with(Alert.SWALLOWING_DIFFICULTY),
            "",
            UPPER_MOLAR,
            plan ->
                assertTrue(
                    plan.visits().stream()
                        .flatMap(visit -> visit.sequence().stream())
                        .noneMatch(
                            entry ->
                                entry instanceof Entry.OfFrame part
                                    && part.task() == Frame.Task.RINSE))),
        new Case(
            "hyperthyroid: pulse and pressure again after the first cartridge",
            "little epinephrine: from memory; measured again: common practice, no source",
            with(Alert.HYPERTHYROID),
            "",
            UPPER_MOLAR,
            plan ->
                plan.visits()
                    .forEach(
                        visit ->
                            assertTrue(
                                visit
                                    .cautions()
                                    .contains(Caution.Known.MEASURE_AFTER_FIRST_CARTRIDGE)))),
        new Case(
            "a tooth planned for extraction is not worked on, and is named",
            "common practice, no source",
            ADULT,
            "",
            List.of(deep(16), extraction(17)),
            plan -> {
              assertTrue(plan.steps().noneMatch(step -> step.teeth().contains(Tooth.ofIso(17))));
              assertTrue(
                  plan.course().cautions().stream()
                      .anyMatch(
                          one ->
                              one instanceof Caution.OfWork work
                                  && work.note()
                                      .equals(
                                          new WorkNote.Of(
                                              WorkNote.Kind.PLANNED_EXTRACTION,
                                              List.of(Tooth.ofIso(17))))));
            }));
  }

  /**
   * Gross debridement first is accepted where it is chosen (explainers of the US procedure code);
   * an abscess may form where deposit stays and the margin tightens (teaching notes, weak).
   */
  @Test
  void theWholeMouthMayHaveItsGrossPassFirstAndIsToldWhatItLeaves() throws Exception {
    PlanOutcome outcome =
        new CoursePlanner(Effort.QUICK)
            .planOnly(chart(ADULT, BOTH_SIDES), practice(""), VisitRange.exactly(4), true);
    Course course = assertInstanceOf(PlanOutcome.Planned.class, outcome).course();
    assertTrue(course.grossFirst());
    boolean fine = false;
    for (Visit visit : course.visits()) {
      for (Entry.Debride step : visit.steps()) {
        fine |= step.pass() == Pass.FINE;
        assertTrue(!fine || step.pass() != Pass.GROSS, visit::toString);
      }
    }
    // Deposit below the margin is numbed: a visit a side.
    for (Visit visit : course.visits().subList(0, 2)) {
      assertTrue(visit.cautions().stream().anyMatch(Caution.LeftOpen.class::isInstance));
    }
  }

  /** An alert that does nothing is a defect; each row above says what its alert does. */
  @Test
  void everyAlertHasACase() {
    Set<Alert> met = EnumSet.noneOf(Alert.class);
    alerts().forEach(one -> met.addAll(one.patient().history().alerts()));
    assertEquals(EnumSet.allOf(Alert.class), met);
  }

  /** Nothing is read from what stands in free text. */
  @Test
  void notesChangeNothing() throws Exception {
    Patient noted = ADULT.withNotes("allergic to everything; no injection please");
    assertEquals(
        planned(chart(ADULT, RIGHT_MOLARS), practice(""), "without"),
        planned(chart(noted, RIGHT_MOLARS), practice(""), "with"));
  }

  /** A plan by hand is none where no alert asks for it, and the other way round. */
  @Test
  void auditTellsWorkByHandFromWorkWithTheUnit() throws Exception {
    Chart byHand = chart(with(Alert.SWALLOWING_DIFFICULTY), UPPER_MOLAR);
    Practice unit = practice("\"alerts\": {\"swallowing-difficulty\": {\"byHand\": false}}");
    Course course = planned(byHand, practice(""), "by hand");
    assertEquals(List.of(), Audit.audit(course, byHand, practice("")));
    assertTrue(
        Audit.audit(course, byHand, unit).stream()
            .anyMatch(found -> found.line().contains("by hand, which no alert or wish asks for")));
    assertTrue(
        Audit.audit(planned(byHand, unit, "with the unit"), byHand, practice("")).stream()
            .anyMatch(
                found -> found.line().contains("though an alert or a wish asks for work by hand")));
  }

  private static Planned planned(Case one) throws Exception {
    Practice practice = practice(one.practice());
    return new Planned(
        planned(chart(one.patient(), one.teeth()), practice, one.toString()), practice);
  }

  private static Practice practice(String some) throws Exception {
    String members = some.isEmpty() ? "" : ", " + some;
    return PracticeReader.read(
        "practice.json", "{\"schema\": \"quadrille/practice/1\"" + members + "}");
  }

  private static Chart chart(Patient patient, List<ToothChart> teeth) {
    return new Chart("T-1", null, Numbering.ISO3950, patient, teeth);
  }

  private static Course planned(Chart chart, Practice practice, String which) throws Exception {
    PlanOutcome outcome =
        new CoursePlanner(Effort.QUICK).plan(chart, practice, new VisitRange(1, 4));
    return assertInstanceOf(PlanOutcome.Planned.class, outcome, which).course();
  }

  private static Patient with(Alert... alerts) {
    EnumSet<Alert> all = EnumSet.noneOf(Alert.class);
    all.addAll(List.of(alerts));
    return ADULT.withHistory(History.of(all));
  }

  private static String prefers(String... agents) {
    List<String> quoted = new ArrayList<>();
    for (String agent : agents) {
      quoted.add('"' + agent + '"');
    }
    return "\"preferredAgents\": [" + String.join(", ", quoted) + "]";
  }

  private static ToothChart deep(int iso) {
    return tooth(iso, Deposit.HEAVY, 7);
  }

  private static ToothChart bridged(int iso) {
    AspectReading sites = AspectReading.even(7);
    return new ToothChart(
        Tooth.ofIso(iso),
        ToothStatus.NATURAL,
        Deposit.HEAVY,
        0,
        0,
        Set.of(Feature.CALCULUS_BRIDGE),
        sites,
        sites);
  }

  private static ToothChart shallow(int iso) {
    return tooth(iso, Deposit.LIGHT, 3);
  }

  private static ToothChart sensitive(int iso, int depthMm) {
    AspectReading sites = AspectReading.even(depthMm);
    return new ToothChart(
        Tooth.ofIso(iso),
        ToothStatus.NATURAL,
        Deposit.LIGHT,
        0,
        0,
        Set.of(Feature.SENSITIVE),
        sites,
        sites);
  }

  /** Where in a visit something of a kind comes first; -1 where it never does. */
  private static int at(List<Entry> sequence, Entry.Kind kind) {
    return sequence.stream()
        .filter(entry -> entry.kind() == kind)
        .mapToInt(sequence::indexOf)
        .findFirst()
        .orElse(-1);
  }

  private static ToothChart extraction(int iso) {
    AspectReading sites = AspectReading.even(9);
    return new ToothChart(
        Tooth.ofIso(iso),
        ToothStatus.PLANNED_EXTRACTION,
        Deposit.HEAVY,
        0,
        0,
        Set.of(),
        sites,
        sites);
  }

  private static ToothChart facialOnly(int iso) {
    return new ToothChart(
        Tooth.ofIso(iso),
        ToothStatus.NATURAL,
        Deposit.LIGHT,
        0,
        0,
        Set.of(),
        AspectReading.even(6),
        AspectReading.even(3));
  }

  private static ToothChart bleedingImplant(int iso) {
    Site deep = new Site(7, 0, true);
    AspectReading sites = new AspectReading(deep, deep, deep);
    return new ToothChart(
        Tooth.ofIso(iso), ToothStatus.IMPLANT, Deposit.LIGHT, 0, 0, Set.of(), sites, sites);
  }

  private static ToothChart implant(int iso) {
    AspectReading sites = AspectReading.even(4);
    return new ToothChart(
        Tooth.ofIso(iso), ToothStatus.IMPLANT, Deposit.LIGHT, 0, 0, Set.of(), sites, sites);
  }

  private static ToothChart tooth(int iso, Deposit deposit, int depthMm) {
    AspectReading sites = AspectReading.even(depthMm);
    return new ToothChart(
        Tooth.ofIso(iso), ToothStatus.NATURAL, deposit, 0, 0, Set.of(), sites, sites);
  }

  private static void epinephrineAtMost(Planned plan, double mg) {
    assertTrue(plan.course().injections() > 0);
    for (Visit visit : plan.visits()) {
      assertTrue(visit.epinephrineMg() <= mg + 1e-9, visit.epinephrineMg() + " mg");
    }
  }

  private static void bookedAtMost(Planned plan, int minutes) {
    for (Visit visit : plan.visits()) {
      assertTrue(visit.bookedMinutes() <= minutes, visit.bookedMinutes() + " minutes");
    }
  }

  private static void plainOnly(Planned plan) {
    assertFalse(plan.agents().isEmpty());
    plan.agents().forEach(agent -> assertEquals("none", agent.vasoconstrictor(), agent.name()));
  }
}
