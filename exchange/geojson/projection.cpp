#include "exchange/geojson/projection.h"

#include <cmath>

#include "preset/ellipsoids.h"

namespace fallwright::geojson {

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double degree = pi / 180;
constexpr double arc_second = degree / 3600;
constexpr double reach = 40;  // degrees from the central meridian

// c[0] n + c[1] n^2 + ...
template <std::size_t Count>
double series(double n, int first, const std::array<double, Count>& c) {
    double sum = 0;
    for (std::size_t i = Count; i-- > 0;) sum = sum * n + c[i];
    return sum * std::pow(n, first);
}

std::array<double, 6> there(double n) {
    return {series<6>(n, 1, {1. / 2, -2. / 3, 5. / 16, 41. / 180, -127. / 288, 7891. / 37800}),
            series<5>(n, 2, {13. / 48, -3. / 5, 557. / 1440, 281. / 630, -1983433. / 1935360}),
            series<4>(n, 3, {61. / 240, -103. / 140, 15061. / 26880, 167603. / 181440}),
            series<3>(n, 4, {49561. / 161280, -179. / 168, 6601661. / 7257600}),
            series<2>(n, 5, {34729. / 80640, -3418889. / 1995840}),
            series<1>(n, 6, {212378941. / 319334400})};
}

std::array<double, 6> back(double n) {
    return {series<6>(n, 1, {1. / 2, -2. / 3, 37. / 96, -1. / 360, -81. / 512, 96199. / 604800}),
            series<5>(n, 2, {1. / 48, 1. / 15, -437. / 1440, 46. / 105, -1118711. / 3870720}),
            series<4>(n, 3, {17. / 480, -37. / 840, -209. / 4480, 5569. / 90720}),
            series<3>(n, 4, {4397. / 161280, -11. / 504, -830251. / 7257600}),
            series<2>(n, 5, {4583. / 161280, -108847. / 3991680}),
            series<1>(n, 6, {20648693. / 638668800})};
}

// Tangent of the conformal latitude from that of the geodetic one.
double conformal(double tau, double e2) {
    const double e = std::sqrt(e2), secant = std::sqrt(1 + tau * tau);
    const double sigma = std::sinh(e * std::atanh(e * tau / secant));
    return tau * std::sqrt(1 + sigma * sigma) - sigma * secant;
}

double geodetic(double wanted, double e2) {
    double tau = wanted / std::sqrt(1 - e2);
    constexpr int steps = 8;  // Newton's steps double the digits; three do
    for (int i = 0; i < steps; ++i) {
        const double found = conformal(tau, e2);
        const double slope =
            (1 - e2) * std::sqrt(1 + found * found) * std::sqrt(1 + tau * tau) / (1 + (1 - e2) * tau * tau);
        tau += (wanted - found) / slope;
    }
    return tau;
}

struct Plane {
    double xi = 0, eta = 0;
};

Plane on_sphere(double latitude, double from_meridian, double e2) {
    const double tau = conformal(std::tan(latitude), e2);
    const double cosine = std::cos(from_meridian);
    return {std::atan2(tau, cosine),
            std::asinh(std::sin(from_meridian) / std::sqrt(tau * tau + cosine * cosine))};
}

Plane summed(const Plane& at, const std::array<double, 6>& c, double sign) {
    Plane sum = at;
    for (std::size_t j = 0; j < c.size(); ++j) {
        const double twice = 2.0 * static_cast<double>(j + 1);
        sum.xi += sign * c[j] * std::sin(twice * at.xi) * std::cosh(twice * at.eta);
        sum.eta += sign * c[j] * std::cos(twice * at.xi) * std::sinh(twice * at.eta);
    }
    return sum;
}

std::array<double, 3> from_center(const LonLat& at, double a, double e2) {
    const double lat = at.lat * degree, lon = at.lon * degree;
    const double nu = a / std::sqrt(1 - e2 * std::sin(lat) * std::sin(lat));
    return {nu * std::cos(lat) * std::cos(lon), nu * std::cos(lat) * std::sin(lon),
            nu * (1 - e2) * std::sin(lat)};
}

LonLat on_ellipsoid(const std::array<double, 3>& at, double a, double e2) {
    const double p = std::hypot(at[0], at[1]);
    double lat = std::atan2(at[2], p * (1 - e2));
    constexpr int steps = 12;  // each is some hundred times nearer
    for (int i = 0; i < steps; ++i) {
        const double nu = a / std::sqrt(1 - e2 * std::sin(lat) * std::sin(lat));
        lat = std::atan2(at[2] + e2 * nu * std::sin(lat), p);
    }
    return {std::atan2(at[1], at[0]) / degree, lat / degree};
}

const preset::Ellipsoid& wgs_84() {
    return *preset::find_ellipsoid("wgs-84");
}

double eccentricity_2(double inverse_flattening) {
    const double f = 1 / inverse_flattening;
    return f * (2 - f);
}

// Within (-180, 180].
double turned(double lon) {
    while (lon > 180) lon -= 360;
    while (lon <= -180) lon += 360;
    return lon;
}

}  // namespace

Projection::Projection(const ProjectionRule& rule) : rule_(rule) {
    const double f = 1 / rule.inverse_flattening.value;
    const double n = f / (2 - f), n2 = n * n;
    e2_ = f * (2 - f);
    radius_ = rule.a.value / (1 + n) * (1 + n2 / 4 + n2 * n2 / 64 + n2 * n2 * n2 / 256);
    alpha_ = there(n);
    beta_ = back(n);
    north_0_ = summed(on_sphere(rule.latitude.value * degree, 0, e2_), alpha_, 1).xi;
}

handover::EastNorth Projection::project(const LonLat& at) const {
    const double from_meridian = turned(at.lon - rule_.longitude.value) * degree;
    const Plane plane = summed(on_sphere(at.lat * degree, from_meridian, e2_), alpha_, 1);
    return {rule_.false_east + rule_.scale * radius_ * plane.eta,
            rule_.false_north + rule_.scale * radius_ * (plane.xi - north_0_)};
}

LonLat Projection::unproject(double e, double n) const {
    const double unit = rule_.scale * radius_;
    const Plane plane =
        summed({(n - rule_.false_north) / unit + north_0_, (e - rule_.false_east) / unit}, beta_, -1);
    const double across = std::sinh(plane.eta), along = std::cos(plane.xi);
    const double tau = geodetic(std::sin(plane.xi) / std::sqrt(across * across + along * along), e2_);
    return {turned(rule_.longitude.value + std::atan2(across, along) / degree), std::atan(tau) / degree};
}

Projection::Vector Projection::shifted(const Vector& at) const {
    constexpr double million = 1e6;
    const double scale = 1 + rule_.ppm / million;
    const double x = rule_.turn[0] * arc_second, y = rule_.turn[1] * arc_second,
                 z = rule_.turn[2] * arc_second;
    return {rule_.shift[0] + scale * (at[0] - z * at[1] + y * at[2]),
            rule_.shift[1] + scale * (z * at[0] + at[1] - x * at[2]),
            rule_.shift[2] + scale * (-y * at[0] + x * at[1] + at[2])};
}

std::optional<LonLat> Projection::to_lon_lat(double e, double n) const {
    const double unit = rule_.scale * radius_;
    if (!(std::fabs(e - rule_.false_east) < unit * reach * degree) ||
        !(std::fabs(n - rule_.false_north) < unit * pi))
        return std::nullopt;
    const LonLat own = unproject(e, n);
    return rule_.shifted ? on_wgs_84(own) : own;
}

LonLat Projection::on_wgs_84(const LonLat& own) const {
    const Vector at = shifted(from_center(own, rule_.a.value, e2_));
    return on_ellipsoid(at, wgs_84().a, eccentricity_2(wgs_84().inverse_flattening));
}

std::optional<handover::EastNorth> Projection::to_grid(const LonLat& at) const {
    if (!(std::fabs(turned(at.lon - rule_.longitude.value)) < reach)) return std::nullopt;
    if (!rule_.shifted) return project(at);
    LonLat own = at;
    constexpr int steps = 6;  // each is a thousand times nearer
    for (int i = 0; i < steps; ++i) {
        const LonLat there = on_wgs_84(own);
        own.lon += turned(at.lon - there.lon);
        own.lat += at.lat - there.lat;
    }
    return project(own);
}

Result<Projection> projection_of(const Book& book) {
    for (const Rule& rule : book.rules) {
        if (!rule.projection.given()) continue;
        constexpr double least = 298.257, most = 298.258;  // WGS 84 and GRS 80 are one to 0.1 mm
        const ProjectionRule& read = rule.projection;
        const bool as_wgs_84 = std::fabs(read.a.value - wgs_84().a) < 0.01 &&
                               read.inverse_flattening.value > least && read.inverse_flattening.value < most;
        if (!read.shifted && !as_wgs_84)
            return finding(
                Code::NoProjection, {book.id_of(rule.entry)},
                "the projection is of another ellipsoid than WGS 84 and does not say how it lies to it",
                "add shift, turn and ppm to the rule projection");
        return Projection(read);
    }
    return finding(
        Code::NoProjection, {},
        "the book does not say how its grid becomes longitude and latitude, which GeoJSON (RFC 7946) "
        "is made of");
}

}  // namespace fallwright::geojson
