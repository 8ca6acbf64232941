package quadrille.calendar;

import quadrille.reading.Faults;
import quadrille.reading.Place;
import quadrille.reading.Words;

/** Collects the faults of one calendar file. */
record CalendarFaults(String source, Faults faults) {

  void add(int line, String within, String found, String allowed) {
    faults.add(new Place(source, line, 1, within), found, allowed);
  }

  /** Reports the value of a property. */
  void add(RawComponent.Property property, String allowed) {
    add(property.line(), property.name(), Words.quote(property.value()), allowed);
  }
}
