#include "exchange/text/sheet_words.h"

#include <algorithm>
#include <array>

namespace fallwright::text {

namespace {

// U+00C0 to U+00FF without accents; a blank drops the character.
constexpr std::string_view latin_letters = "aaaaaaaceeeeiiiidnooooo ouuuuytsaaaaaaaceeeeiiiidnooooo ouuuuyty";

constexpr std::string_view greek_sigma = "\xCE\xA3";
constexpr std::string_view sum_sign = "\xE2\x88\x91";

bool ends_word(char c) {
    constexpr std::string_view ends = " \t\r\n()[]=:;/\"";
    return ends.find(c) != std::string_view::npos;
}

// The names of columns, folded, parted by blanks.
struct ColumnNames {
    Column column;
    std::string_view names;
};

constexpr std::array<ColumnNames, 22> column_names = {{
    {Column::Back,
     "bs b back backsight backsights bsreading backreading ruckblick rueckblick ruck "
     "arriere lecturearriere viseearriere atras lecturaatras vistaatras espalda"},
    {Column::Inter,
     "is i ifs inter intersight intermediate intermediates intermediatesight "
     "intermediatesights intermediateforesight sideshot zwischenblick zwischen "
     "seitenblick intermediaire lectureintermediaire viseeintermediaire intermedia "
     "lecturaintermedia vistaintermedia"},
    {Column::Fore,
     "fs f fore foresight foresights fsreading forereading vorblick vor avant "
     "lectureavant viseeavant adelante lecturaadelante vistaadelante frente"},
    {Column::Staff,
     "staff staffreading reading readings rodreading ablesung lattenablesung lecture "
     "lectura"},
    {Column::Sight, "sight sighttype typeofsight type blick visee vista"},
    {Column::Collimation,
     "hpc hi hoc poc collimation collimationlevel heightofcollimation "
     "heightofplaneofcollimation planeofcollimation heightofinstrument "
     "instrumentheight horizont instrumentenhorizont zielhohe zielhoehe "
     "altitudeduplandevisee planodecomparacion alturadelinstrumento"},
    {Column::Rise, "rise rises steigt steigen steigung montee sube"},
    {Column::Fall, "fall falls fallt faellt fallen gefalle descente baja"},
    {Column::RiseFall,
     "risefall riseorfall riseandfall hohenunterschied hoehenunterschied denivelee "
     "desnivel"},
    {Column::Level,
     "rl reducedlevel reducedlevels redlevel level levels elev elevation elevations "
     "height z hohe hoehe h meereshohe altitude cote cota altura"},
    {Column::Known,
     "known knownrl knownlevel given givenrl givenlevel bmlevel bmrl benchmarklevel "
     "bekannt sollhohe sollhoehe festpunkthohe connu altitudeconnue conocido "
     "cotaconocida"},
    {Column::Distance, "distance distances dist entfernung strecke distanz distancia"},
    {Column::SightLength, "sightdistance sightlength lengthofsight zielweite portee"},
    {Column::BackLength,
     "bsdist bsdistance distbs distancebs backdist backdistance backsightdistance "
     "zielweiteruckblick distancearriere distanciaatras"},
    {Column::ForeLength,
     "fsdist fsdistance distfs distancefs foredist foredistance foresightdistance "
     "zielweitevorblick distanceavant distanciaadelante"},
    {Column::Chainage, "chainage ch cha chain stationierung kilometrierung abscisse pk progresiva"},
    {Column::Offset, "offset off os abstand deport desplazamiento"},
    {Column::Point,
     "point points pt pointno pointname pointid ptno ptid id name peg position "
     "location staffposition staffstation punkt punktnr punktnummer pkt pktnr punto"},
    {Column::Station, "station stn sta estacion"},
    {Column::Number, "no nr num number"},
    {Column::Remark,
     "remark remarks note notes comment comments description desc bemerkung "
     "bemerkungen anmerkung anmerkungen beschreibung remarque remarques observation "
     "observations observacion observaciones"},
    {Column::Aside,
     "adjustedrl adjustedlevel adjrl adjlevel correctedrl correctedlevel finalrl "
     "finallevel correction corrn corr adjustment verbesserung"},
}};

}  // namespace

std::string folded(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if ((c >= '0' && c <= '9') || (c >= 'a' && c <= 'z')) out += c;
        if (c >= 'A' && c <= 'Z') out += static_cast<char>(c - 'A' + 'a');
        if (text.substr(i, greek_sigma.size()) == greek_sigma || text.substr(i, sum_sign.size()) == sum_sign)
            out += "sum";
        const auto next = i + 1 < text.size() ? static_cast<unsigned char>(text[i + 1]) : 0U;
        if (c == '\xC3' && next >= 0x80 && next <= 0xBF && latin_letters[next - 0x80] != ' ')
            out += latin_letters[next - 0x80];
    }
    return out;
}

bool one_of(std::string_view word, std::string_view words) {
    for (std::size_t at = words.find(word); at != std::string_view::npos; at = words.find(word, at + 1)) {
        const std::size_t end = at + word.size();
        const bool begins = at == 0 || words[at - 1] == ' ';
        if (!word.empty() && begins && (end == words.size() || words[end] == ' ')) return true;
    }
    return false;
}

Column column_named(std::string_view folded_name) {
    for (const ColumnNames& known : column_names) {
        if (one_of(folded_name, known.names)) return known.column;
    }
    return Column::Unknown;
}

SightWord sight_word(std::string_view text) {
    const std::string word = folded(text);
    switch (word == "r" ? Column::Back : word == "v" ? Column::Fore : column_named(word)) {
        case Column::Back:
            return SightWord::Back;
        case Column::Inter:
            return SightWord::Inter;
        case Column::Fore:
            return SightWord::Fore;
        default:
            return SightWord::None;
    }
}

FootWord foot_word(std::string_view text) {
    const std::string word = folded(text);
    if (one_of(word,
               "sum sums sumof total totals summe summen somme sommes suma sumas totales totaux "
               "pagetotal pagetotals columnsums carriedforward broughtforward ubertrag "
               "uebertrag subtotal"))
        return FootWord::Sum;
    if (one_of(word,
               "check checks cf bf report pagecheck arithmeticcheck arithcheck checksum kontrolle probe "
               "controle control comprobacion difference differences diff differenz diferencia "
               "bsfs sumbssumfs sumbsfs riseminusfall sumrisesumfall lastfirst lastrlfirstrl "
               "rlcheck"))
        return FootWord::Check;
    if (one_of(word,
               "misclosure misclose closingerror error allowed allowable allowablemisclosure "
               "permissible permissibleerror tolerance widerspruch schlussfehler fermeture "
               "ecartdefermeture errordecierre cierre"))
        return FootWord::Aside;
    return FootWord::None;
}

bool names_any_change_point(std::string_view text) {
    return one_of(folded(text),
                  "cp tp wp changepoint turningpoint change changept turningpt wechselpunkt pc "
                  "pointdechangement puntodecambio");
}

std::vector<std::string_view> words_of(std::string_view text) {
    std::vector<std::string_view> words;
    for (std::size_t i = 0; i < text.size();) {
        std::size_t end = i;
        while (end < text.size() && !ends_word(text[end])) ++end;
        if (end > i) words.push_back(text.substr(i, end - i));
        i = end + 1;
    }
    return words;
}

bool means_known(std::string_view word) {
    return one_of(word, "known given fixed bekannt gegeben connu connue conocido conocida dado dada");
}

bool means_not(std::string_view word) {
    return one_of(word, "not no nicht unknown unbekannt pas non");
}

bool means_yes(std::string_view word) {
    return means_known(word) || names_benchmark(word) || one_of(word, "yes y x true 1 ja j oui si");
}

bool means_no(std::string_view word) {
    return one_of(word, "no n false 0 nein non");
}

bool means_level(std::string_view word) {
    return one_of(word, "rl level elev elevation hohe hoehe cote cota altitude");
}

bool names_benchmark(std::string_view word) {
    for (const std::string_view start : {"bm", "tbm", "obm", "benchmark", "festpunkt", "repere"}) {
        const std::string_view rest = word.substr(0, start.size()) == start ? word.substr(start.size()) : "-";
        if (std::all_of(rest.begin(), rest.end(), [](char c) { return c >= '0' && c <= '9'; })) return true;
    }
    return false;
}

bool means_inverted(std::string_view word) {
    return one_of(word, "inv inverted soffit inverse underside");
}

}  // namespace fallwright::text
