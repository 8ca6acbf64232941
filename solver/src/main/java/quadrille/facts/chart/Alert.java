package quadrille.facts.chart;

/** A medical or personal alert that forbids, caps or prompts. */
public enum Alert {
  HEART_DISEASE("heart-disease"),
  ENDOCARDITIS_RISK("endocarditis-risk"),
  HIGH_BLOOD_PRESSURE("high-blood-pressure"),
  RECENT_HEART_ATTACK("recent-heart-attack"),
  RECENT_STROKE("recent-stroke"),
  /** Which one is not said. */
  ANTICOAGULANT("anticoagulant"),
  WARFARIN("warfarin"),
  DIRECT_ORAL_ANTICOAGULANT("direct-oral-anticoagulant"),
  ANTIPLATELET("antiplatelet"),
  BLEEDING_DISORDER("bleeding-disorder"),
  DIABETES("diabetes"),
  PREGNANCY("pregnancy"),
  METHAEMOGLOBINAEMIA_RISK("methaemoglobinaemia-risk"),
  SULFITE_ALLERGY("sulfite-allergy"),
  AMIDE_ALLERGY("amide-allergy"),
  LATEX_ALLERGY("latex-allergy"),
  CHLORHEXIDINE_ALLERGY("chlorhexidine-allergy"),
  /** A non-selective one. */
  BETA_BLOCKER("beta-blocker"),
  TRICYCLIC("tricyclic"),
  COCAINE("cocaine"),
  ANTIRESORPTIVE("antiresorptive"),
  JAW_IRRADIATED("jaw-irradiated"),
  IMMUNOSUPPRESSED("immunosuppressed"),
  CHEMOTHERAPY("chemotherapy"),
  LIVER_DISEASE("liver-disease"),
  KIDNEY_DISEASE("kidney-disease"),
  DIALYSIS("dialysis"),
  HYPERTHYROID("hyperthyroid"),
  JOINT_REPLACEMENT("joint-replacement"),
  PACEMAKER("pacemaker"),
  EPILEPSY("epilepsy"),
  ASTHMA("asthma"),
  RESPIRATORY_INFECTION("respiratory-infection"),
  SWALLOWING_DIFFICULTY("swallowing-difficulty"),
  ANXIOUS("anxious"),
  NEEDLE_AVERSE("needle-averse");

  private final String word;

  Alert(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}
