// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <cmath>

#include "castplan/season/ephemeris.hpp"
#include "season/sky_angles.hpp"

namespace castplan {
namespace {

// Multiples of the mean elongation, the sun's and the moon's mean anomaly and the moon's argument of latitude; then the
// sizes of the term. Meeus, table 47.A: longitude in 1e-6 degrees, distance in metres.
struct LongitudeTerm {
  int elongation, sun, moon, node;
  double longitude, distance;
};
constexpr LongitudeTerm kLongitude[] = {
    {0, 0, 1, 0, 6288774, -20905355}, {2, 0, -1, 0, 1274027, -3699111}, {2, 0, 0, 0, 658314, -2955968},
    {0, 0, 2, 0, 213618, -569925},    {0, 1, 0, 0, -185116, 48888},     {0, 0, 0, 2, -114332, -3149},
    {2, 0, -2, 0, 58793, 246158},     {2, -1, -1, 0, 57066, -152138},   {2, 0, 1, 0, 53322, -170733},
    {2, -1, 0, 0, 45758, -204586},    {0, 1, -1, 0, -40923, -129620},   {1, 0, 0, 0, -34720, 108743},
    {0, 1, 1, 0, -30383, 104755},     {2, 0, 0, -2, 15327, 10321},      {0, 0, 1, 2, -12528, 0},
    {0, 0, 1, -2, 10980, 79661},      {4, 0, -1, 0, 10675, -34782},     {0, 0, 3, 0, 10034, -23210},
    {4, 0, -2, 0, 8548, -21636},      {2, 1, -1, 0, -7888, 24208},      {2, 1, 0, 0, -6766, 30824},
    {1, 0, -1, 0, -5163, -8379},      {1, 1, 0, 0, 4987, -16675},       {2, -1, 1, 0, 4036, -12831},
    {2, 0, 2, 0, 3994, -10445},       {4, 0, 0, 0, 3861, -11650},       {2, 0, -3, 0, 3665, 14403},
    {0, 1, -2, 0, -2689, -7003},      {2, 0, -1, 2, -2602, 0},          {2, -1, -2, 0, 2390, 10056},
    {1, 0, 1, 0, -2348, 6322},        {2, -2, 0, 0, 2236, -9884},       {0, 1, 2, 0, -2120, 5751},
    {0, 2, 0, 0, -2069, 0},           {2, -2, -1, 0, 2048, -4950},      {2, 0, 1, -2, -1773, 4130},
    {2, 0, 0, 2, -1595, 0},           {4, -1, -1, 0, 1215, -3958},      {0, 0, 2, 2, -1110, 0},
    {3, 0, -1, 0, -892, 3258},        {2, 1, 1, 0, -810, 2616},         {4, -1, -2, 0, 759, -1897},
    {0, 2, -1, 0, -713, -2117},       {2, 2, -1, 0, -700, 2354},        {2, 1, -2, 0, 691, 0},
    {2, -1, 0, -2, 596, 0},           {4, 0, 1, 0, 549, -1423},         {0, 0, 4, 0, 537, -1117},
    {4, -1, 0, 0, 520, -1571},        {1, 0, -2, 0, -487, -1739},       {0, 0, 2, -2, -381, -4421},
    {2, 0, -1, -2, 0, 8752}};

// Table 47.B: latitude in 1e-6 degrees.
struct LatitudeTerm {
  int elongation, sun, moon, node;
  double latitude;
};
constexpr LatitudeTerm kLatitude[] = {
    {0, 0, 0, 1, 5128122}, {0, 0, 1, 1, 280602},  {0, 0, 1, -1, 277693}, {2, 0, 0, -1, 173237}, {2, 0, -1, 1, 55413},
    {2, 0, -1, -1, 46271}, {2, 0, 0, 1, 32573},   {0, 0, 2, 1, 17198},   {2, 0, 1, -1, 9266},   {0, 0, 2, -1, 8822},
    {2, -1, 0, -1, 8216},  {2, 0, -2, -1, 4324},  {2, 0, 1, 1, 4200},    {2, 1, 0, -1, -3359},  {2, -1, -1, 1, 2463},
    {2, -1, 0, 1, 2211},   {2, -1, -1, -1, 2065}, {0, 1, -1, -1, -1870}, {4, 0, -1, -1, 1828},  {0, 1, 0, 1, -1794},
    {0, 0, 0, 3, -1749},   {0, 1, -1, 1, -1565},  {1, 0, 0, 1, -1491},   {0, 1, 1, 1, -1475},   {0, 1, 1, -1, -1410},
    {0, 1, 0, -1, -1344},  {1, 0, 0, -1, -1335},  {0, 0, 3, 1, 1107},    {4, 0, 0, -1, 1021},   {4, 0, -1, 1, 833}};

struct Arguments {
  double mean, elongation, sun, moon, node, shrink;
};

Arguments arguments(double t) {
  const auto polynomial = [t](double a, double b, double c, double d) { return a + t * (b + t * (c + t * d)); };
  return {polynomial(218.3164477, 481267.88123421, -0.0015786, 1.0 / 538841),
          polynomial(297.8501921, 445267.1114034, -0.0018819, 1.0 / 545868),
          polynomial(357.5291092, 35999.0502909, -0.0001536, 1.0 / 24490000),
          polynomial(134.9633964, 477198.8675055, 0.0087414, 1.0 / 69699),
          polynomial(93.2720950, 483202.0175233, -0.0036539, -1.0 / 3526000),
          1 - t * (0.002516 + 0.0000074 * t)};
}

template <class Term>
double angle(const Term& term, const Arguments& at) {
  return term.elongation * at.elongation + term.sun * at.sun + term.moon * at.moon + term.node * at.node;
}

// The earth's orbit grows rounder: terms with the sun's anomaly shrink with it.
template <class Term>
double shrink(const Term& term, const Arguments& at) {
  return std::pow(at.shrink, std::abs(term.sun));
}

}  // namespace

SkyPosition moon_position(double t) {
  const Arguments at = arguments(t);
  const double venus = 119.75 + 131.849 * t;
  const double jupiter = 53.09 + 479264.290 * t;
  const double third = 313.45 + 481266.484 * t;
  double longitude = 3958 * sine(venus) + 1962 * sine(at.mean - at.node) + 318 * sine(jupiter);
  double distance = 0;
  for (const LongitudeTerm& term : kLongitude) {
    longitude += shrink(term, at) * term.longitude * sine(angle(term, at));
    distance += shrink(term, at) * term.distance * cosine(angle(term, at));
  }
  double latitude = -2235 * sine(at.mean) + 382 * sine(third) + 175 * sine(venus - at.node) +
                    175 * sine(venus + at.node) + 127 * sine(at.mean - at.moon) - 115 * sine(at.mean + at.moon);
  for (const LatitudeTerm& term : kLatitude) latitude += shrink(term, at) * term.latitude * sine(angle(term, at));
  SkyPosition moon;
  moon.longitude = wrapped(at.mean + longitude * 1e-6 + nutation(t).longitude);
  moon.latitude = latitude * 1e-6;
  moon.distance_km = 385000.56 + distance / 1000.0;
  set_equatorial(moon, true_obliquity(t));
  return moon;
}

}  // namespace castplan
