#include "sim/scenario/unit_text.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

namespace rackwright {
namespace {

using Alias = std::pair<std::string_view, std::string_view>;

// UDUNITS reads "gal" as the unit of acceleration, "oz" as a fluid ounce, "C" and "F" as coulomb and farad; none of
// them is wanted here. US volumes: 1 gallon = 231 in3, 1 bushel = 2150.42 in3 (NIST Handbook 44, Appendix C).
constexpr std::array aliases{
    Alias{"gal", "(231 in3)"},      Alias{"gals", "(231 in3)"},        Alias{"gallon", "(231 in3)"},
    Alias{"gallons", "(231 in3)"},  Alias{"qt", "(57.75 in3)"},        Alias{"quart", "(57.75 in3)"},
    Alias{"quarts", "(57.75 in3)"}, Alias{"pt", "(28.875 in3)"},       Alias{"pint", "(28.875 in3)"},
    Alias{"pints", "(28.875 in3)"}, Alias{"cup", "(14.4375 in3)"},     Alias{"cups", "(14.4375 in3)"},
    Alias{"bu", "(2150.42 in3)"},   Alias{"bushel", "(2150.42 in3)"},  Alias{"bushels", "(2150.42 in3)"},
    Alias{"lbs", "lb"},             Alias{"oz", "avoirdupois_ounce"},  Alias{"ounce", "avoirdupois_ounce"},
    Alias{"ounces", "avoirdupois_ounce"}, Alias{"kgs", "kg"},          Alias{"gph", "((231 in3)/h)"},
    Alias{"gpm", "((231 in3)/min)"}, Alias{"lph", "(L/h)"},            Alias{"lpm", "(L/min)"},
    Alias{"Wh", "(W.h)"},           Alias{"kWh", "(kW.h)"},            Alias{"MWh", "(MW.h)"},
    Alias{"C", "degC"},             Alias{"F", "degF"},                Alias{"sqft", "ft2"},
    Alias{"sqm", "m2"},             Alias{"hrs", "h"},                 Alias{"mins", "min"},
    Alias{"l", "L"},                Alias{"per", "/"},                 Alias{"deg", "degree"},
};

constexpr std::array words{
    UnitWords{"kg", "a mass", "25 kg or 55 lb", "lb"},
    UnitWords{"h", "a length of time", "10 h or 8 d", "h"},
    UnitWords{"d", "a length of time", "8 d or 12 h", "d"},
    UnitWords{"min", "a length of time", "3 min", "min"},
    UnitWords{"year", "a length of time", "8 years", "year"},
    UnitWords{"m", "a length", "0.6 m or 2 ft", "ft"},
    UnitWords{"cm", "a length", "20 cm or 8 in", "in"},
    UnitWords{"m2", "an area", "12 m2 or 130 ft2", "ft2"},
    UnitWords{"m3", "a volume", "0.5 m3 or 18 ft3", "ft3"},
    UnitWords{"L", "a volume", "100 L or 25 gal", "gal"},
    UnitWords{"L/h", "a flow", "53 L/h or 14 gal/h", "gal/h"},
    UnitWords{"degC", "a temperature", "18 degC or 65 degF", "degF"},
    UnitWords{"K", "a temperature difference", "5 K or 9 degF", "degF"},
    UnitWords{"K/m", "a temperature difference by height", "0.8 K/m or 0.4 degF/ft", "degF/ft"},
    UnitWords{"K d", "a thermal time", "58.5 K d", "degF d"},
    UnitWords{"W", "a power", "500 W", "W"},
    UnitWords{"kWh", "an energy", "2 kWh", "kWh"},
    UnitWords{"Pa", "a pressure", "101325 Pa or 14.7 psi", "psi"},
    UnitWords{"kg/m2", "a mass on an area", "5 kg/m2 or 1 lb/ft2", "lb/ft2"},
    UnitWords{"kg/m2/h", "an evaporation", "11 kg/m2/h or 2.3 lb/ft2/h", "lb/ft2/h"},
    UnitWords{"L/kg/d", "a volume by mass and day", "0.4 L/kg/d or 0.05 gal/lb/d", "gal/lb/d"},
    UnitWords{"kg/m3", "a mass in a volume", "619 kg/m3 or 48 lb/bushel", "lb/bushel"},
    UnitWords{"W/m2/K", "a heat transmittance", "1.8 W/m2/K or 0.3 BTU/h/ft2/degF", "BTU/h/ft2/degF"},
    UnitWords{"W/m/K", "a heat conductivity", "0.037 W/m/K", "BTU/h/ft/degF"},
    UnitWords{"kJ/K", "a heat capacity", "4000 kJ/K or 2000 BTU/degF", "BTU/degF"},
    UnitWords{"degree", "an angle", "38.9 degrees", "degree"},
    UnitWords{"1", "a plain number or a share", "0.9 or 90 %", "1"},
    UnitWords{"%", "a percentage", "0.5 %", "%"},
    UnitWords{"1/kg", "a price by mass", "0.35 /kg, 0.16 /lb or 8 / 25 kg", "/lb"},
    UnitWords{"1/m3", "a price by volume", "2 /m3 or 8 / 1000 gal", "/(100 ft3)"},
    UnitWords{"1/m2", "a price by area", "20 /m2 or 2 /ft2", "/ft2"},
    UnitWords{"1/kWh", "a price by energy", "0.25 /kWh", "/kWh"},
    UnitWords{"1/h", "a rate by the hour", "12 /h", "/h"},
    UnitWords{"1/d", "a rate by the day", "0.012 /d", "/d"},
    UnitWords{"m/min", "a speed", "60 m/min or 200 ft/min", "ft/min"},
    UnitWords{"MJ/kg", "an energy by mass", "13 MJ/kg", "Mcal/lb"},
    UnitWords{"cm2/s", "a diffusivity", "30 cm2/s", "cm2/s"},
    UnitWords{"cal/mol", "an energy by amount", "12300 cal/mol", "cal/mol"},
    UnitWords{"1/cm", "a surface by volume", "17 /cm", "/cm"},
};

/// Bytes above ASCII (the degree sign) belong to the word they stand in.
bool letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0 || c == '_' || (c & 0x80) != 0; }
bool digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

std::string_view alias_of(std::string_view word) {
  for (const auto& [name, meaning] : aliases) {
    if (name == word) return meaning;
  }
  return word;
}

/// "deg F", "degrees C" and "\u00b0 F" are one word; UDUNITS would multiply an angle by a temperature.
std::string joined_degrees(std::string_view written) {
  std::string out(written);
  for (const std::string_view word : {"degrees ", "degree ", "deg. ", "deg ", "\xC2\xB0 ", "\xC2\xB0"}) {
    const std::size_t at = out.find(word);
    if (at == std::string::npos) continue;
    const std::size_t after = at + word.size();
    const bool scale = after < out.size() && (out[after] == 'F' || out[after] == 'C' || out[after] == 'K');
    if (scale && (after + 1 == out.size() || !letter(out[after + 1]))) return out.replace(at, word.size(), "deg");
  }
  return out;
}

/// "short ton" and the like are one word too.
std::string joined_tons(std::string written) {
  for (const std::string_view which : {"short", "long", "metric"})
    for (std::size_t at = written.find(which); at != std::string::npos; at = written.find(which, at + 1)) {
      const std::size_t after = at + which.size();
      const bool begins = at == 0 || !letter(written[at - 1]);
      if (begins && written.compare(after, 4, " ton") == 0) written[after] = '_';
    }
  return written;
}

std::string with_aliases(std::string_view written_text) {
  const std::string written = joined_tons(joined_degrees(written_text));
  std::string out;
  for (std::size_t i = 0; i < written.size();) {
    if (!letter(written[i])) {
      out += written[i++];
      continue;
    }
    std::size_t end = i;
    while (end < written.size() && letter(written[end])) ++end;
    out += alias_of(std::string_view(written).substr(i, end - i));
    i = end;
  }
  return out;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

}  // namespace

std::string unit_for_udunits(std::string_view written) {
  const std::string spelled = with_aliases(trimmed(written));
  const std::string_view text = trimmed(spelled);
  const auto slash = text.find('/');
  if (slash == std::string_view::npos) return std::string(text);
  // "/kg" is 1/kg; "/ 25 kg" is 1/(25 kg), as on a bag's price.
  const std::string_view above = trimmed(text.substr(0, slash));
  const std::string_view below = trimmed(text.substr(slash + 1));
  const std::string top = above.empty() ? "1" : std::string(above);
  if (!below.empty() && digit(below.front())) return top + "/(" + std::string(below) + ")";
  return top + "/" + std::string(below);
}

bool bare_ton(std::string_view written) {
  const std::string text = joined_tons(std::string(written));
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i;
    std::string word;
    while (end < text.size() && letter(text[end])) word += static_cast<char>(std::tolower(static_cast<unsigned char>(text[end++])));
    if (word == "ton" || word == "tons") return true;
    i = std::max(end, i + 1);
  }
  return false;
}

std::optional<UnitWords> unit_words(std::string_view native) {
  for (const UnitWords& word : words) {
    if (word.native == native) return word;
  }
  return std::nullopt;
}

}  // namespace rackwright
