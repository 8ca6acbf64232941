package quadrille.facts.exchange;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import quadrille.document.JsonLayout;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.exchange.Mapping.Code;
import quadrille.facts.exchange.Meaning.Place;
import quadrille.facts.exchange.Meaning.What;

/**
 * Writes a chart as a FHIR R4 Bundle of Observations after HL7's profile for dental findings, one
 * for each thing said of a site or a tooth, with the codes that a mapping names. The patient is
 * known by the case alone. The same chart gives the same bytes.
 *
 * @param text the Bundle; empty where nothing of the chart has a code
 * @param notes what has no code by the mapping, and so is not in it
 */
public record FhirFindings(String text, List<String> notes) {

  private static final String PROFILE =
      "http://hl7.org/fhir/us/dental-data-exchange/StructureDefinition/dental-findings";

  public FhirFindings {
    notes = List.copyOf(notes);
  }

  /** Writes a chart. */
  public static FhirFindings of(Chart chart, Mapping mapping) {
    return new Writing(chart, mapping).written();
  }

  private static final class Writing {
    private final Chart chart;
    private final Mapping mapping;
    private final List<Object> entries = new ArrayList<>();
    private final Set<String> notes = new LinkedHashSet<>();

    Writing(Chart chart, Mapping mapping) {
      this.chart = chart;
      this.mapping = mapping;
    }

    FhirFindings written() {
      if (chart.charted() == null) {
        notes.add("The chart has no day, which each Observation needs; nothing was written.");
        return new FhirFindings("", List.copyOf(notes));
      }
      chart.teeth().forEach(this::tooth);
      notes.add("What concerns the patient (age, weight, alerts, wishes, notes) is not written.");
      if (entries.isEmpty()) {
        return new FhirFindings("", List.copyOf(notes));
      }
      Map<String, Object> bundle = new LinkedHashMap<>();
      bundle.put("resourceType", "Bundle");
      bundle.put("type", "collection");
      entries.add(0, patient());
      bundle.put("entry", entries);
      return new FhirFindings(JsonLayout.text(bundle), List.copyOf(notes));
    }

    private void tooth(ToothChart tooth) {
      if (tooth.status() != ToothStatus.NATURAL) {
        word(tooth, What.STATUS, tooth.status().word());
      }
      if (tooth.worked() || tooth.deposit() != Deposit.NONE) {
        word(tooth, What.DEPOSIT, tooth.deposit().word());
      }
      if (tooth.furcation() != 0) {
        value(tooth, new Meaning(What.FURCATION, null, null), integer(tooth.furcation()));
      }
      if (tooth.mobility() != 0) {
        value(tooth, new Meaning(What.MOBILITY, null, null), integer(tooth.mobility()));
      }
      tooth.features().forEach(feature -> word(tooth, What.FEATURES, feature.word()));
      for (Aspect aspect : Aspect.values()) {
        List<Site> sites = tooth.sites(aspect);
        for (int i = 0; i < sites.size(); i++) {
          Site site = sites.get(i);
          Place place = Place.values()[i];
          if (site.depthMm() == null) {
            notes.add("Sites that were not probed have no Observation of their depth.");
          } else {
            value(tooth, new Meaning(What.DEPTH, aspect, place), millimetres(site.depthMm()));
          }
          if (site.recessionMm() != 0) {
            value(
                tooth, new Meaning(What.RECESSION, aspect, place), millimetres(site.recessionMm()));
          }
          if (site.depthMm() != null || site.bleeding()) {
            value(
                tooth,
                new Meaning(What.BLEEDING, aspect, place),
                Map.of("valueBoolean", site.bleeding()));
          }
        }
      }
    }

    private static Map<String, Object> integer(int value) {
      return Map.of("valueInteger", value);
    }

    private static Map<String, Object> millimetres(int value) {
      Map<String, Object> quantity = new LinkedHashMap<>();
      quantity.put("value", value);
      quantity.put("unit", "mm");
      quantity.put("system", "http://unitsofmeasure.org");
      quantity.put("code", "mm");
      return Map.of("valueQuantity", quantity);
    }

    private void word(ToothChart tooth, What what, String word) {
      value(tooth, new Meaning(what, null, null), Map.of("valueString", word));
    }

    /** With one code for all, or one for what is said and one for the site. */
    private void value(ToothChart tooth, Meaning meaning, Map<String, Object> value) {
      Optional<Code> whole = mapping.code(meaning);
      Optional<Code> what = mapping.code(new Meaning(meaning.what(), null, null));
      Optional<Code> site =
          meaning.place() == null
              ? Optional.empty()
              : mapping.code(new Meaning(null, meaning.aspect(), meaning.place()));
      Code code = whole.or(() -> what).orElse(null);
      if (code == null || (whole.isEmpty() && meaning.place() != null && site.isEmpty())) {
        notes.add("No code means " + meaning.text() + "; it is not written.");
        return;
      }
      List<Object> codings = new ArrayList<>();
      codings.add(coding(new Code(FhirChart.ISO, tooth.tooth().toString())));
      if (whole.isEmpty()) {
        site.ifPresent(one -> codings.add(coding(one)));
      }
      Map<String, Object> one = new LinkedHashMap<>();
      one.put("resourceType", "Observation");
      one.put("meta", Map.of("profile", List.of(PROFILE)));
      one.put("status", "final");
      one.put("category", List.of(Map.of("coding", List.of(dental()))));
      one.put("code", Map.of("coding", List.of(coding(code))));
      one.put("subject", subject());
      one.put("effectiveDateTime", String.valueOf(chart.charted()));
      one.putAll(value);
      one.put("bodySite", Map.of("coding", codings));
      Map<String, Object> entry = new LinkedHashMap<>();
      entry.put("fullUrl", address(tooth.tooth() + " " + meaning.text() + " " + value));
      entry.put("resource", one);
      entries.add(entry);
    }

    private Map<String, Object> subject() {
      Map<String, Object> subject = new LinkedHashMap<>();
      subject.put("reference", address("Patient"));
      subject.put("identifier", Map.of("value", chart.caseName()));
      return subject;
    }

    private static Map<String, Object> dental() {
      Map<String, Object> dental = coding(FhirChart.DENTAL);
      dental.put("display", "Dental");
      return dental;
    }

    private static Map<String, Object> coding(Code code) {
      Map<String, Object> coding = new LinkedHashMap<>();
      coding.put("system", code.system());
      coding.put("code", code.code());
      return coding;
    }

    private Object patient() {
      Map<String, Object> patient = new LinkedHashMap<>();
      patient.put("resourceType", "Patient");
      patient.put("identifier", List.of(Map.of("value", chart.caseName())));
      Map<String, Object> entry = new LinkedHashMap<>();
      entry.put("fullUrl", address("Patient"));
      entry.put("resource", patient);
      return entry;
    }

    /** Made from what it stands for, so that the same chart has the same addresses. */
    private String address(String what) {
      String name = "quadrille/" + chart.caseName() + "/" + chart.charted() + "/" + what;
      return "urn:uuid:" + UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8));
    }
  }
}
