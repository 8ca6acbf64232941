package quadrille.facts.chart;

/** A medical or personal alert that forbids, caps or prompts. */
public enum Alert {
  HEART_DISEASE("heart-disease"),
  ENDOCARDITIS_RISK("endocarditis-risk"),
  HIGH_BLOOD_PRESSURE("high-blood-pressure"),
  ANTICOAGULANT("anticoagulant"),
  DIABETES("diabetes"),
  PREGNANCY("pregnancy"),
  METHAEMOGLOBINAEMIA_RISK("methaemoglobinaemia-risk"),
  PACEMAKER("pacemaker"),
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
