# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0
"""Writes rasters and vector layers with GDAL's command-line tools, without dates and rounded to 1 cm."""
import json
import os
import struct
import subprocess
import tempfile

EPSG = 32624                       # WGS 84 / UTM zone 24N: metres
X0, Y0 = 421000.0, 5038000.0       # where the lake's local origin lies: open ocean near 45.5 N 40 W
NODATA = -9999.0


def _run(*command):
    # GeoPackage writes the time of its last change; a fixed one keeps the bytes the same
    fixed = dict(os.environ, OGR_CURRENT_DATE="2026-01-01T00:00:00.000Z", GDAL_PAM_ENABLED="NO", LC_ALL="C")
    subprocess.run(command, check=True, env=fixed, stdout=subprocess.DEVNULL)


def raster(path, rows, west, north, cell):
    """rows: depths in metres, north row first, None outside the lake."""
    with tempfile.TemporaryDirectory() as folder:
        with open(os.path.join(folder, "depth.bin"), "wb") as out:
            for row in rows:
                out.write(struct.pack("<%df" % len(row), *(NODATA if z is None else round(z, 2) for z in row)))
        width, height = len(rows[0]), len(rows)
        source = os.path.join(folder, "depth.vrt")
        with open(source, "w") as out:
            out.write(f"""<VRTDataset rasterXSize="{width}" rasterYSize="{height}"><SRS>EPSG:{EPSG}</SRS>
<GeoTransform>{X0 + west}, {cell}, 0, {Y0 + north}, 0, {-cell}</GeoTransform>
<VRTRasterBand dataType="Float32" band="1" subClass="VRTRawRasterBand"><Description>depth</Description>
<UnitType>m</UnitType><NoDataValue>{NODATA}</NoDataValue>
<SourceFilename relativetoVRT="1">depth.bin</SourceFilename><ImageOffset>0</ImageOffset><PixelOffset>4</PixelOffset>
<LineOffset>{4 * width}</LineOffset><ByteOrder>LSB</ByteOrder></VRTRasterBand></VRTDataset>""")
        _run("gdal_translate", "-q", "-of", "GTiff", "-co", "COMPRESS=DEFLATE", "-co", "PREDICTOR=3", "-co", "ZLEVEL=9",
             "-co", "TILED=YES", "-co", "BLOCKXSIZE=256", "-co", "BLOCKYSIZE=256", source, path)


def _placed(shape):
    if isinstance(shape[0], (int, float)):
        return [round(X0 + shape[0], 2), round(Y0 + shape[1], 2)]
    return [_placed(part) for part in shape]


def _kind(shape):
    depth = 0
    while not isinstance(shape, (int, float)):
        shape, depth = shape[0], depth + 1
    return {1: "Point", 2: "LineString", 3: "Polygon"}[depth]


def layer(path, records, fields=("name",)):
    """records: (value of each field..., shape); a shape is a place, a line of places or a polygon's rings."""
    features = [{"type": "Feature", "properties": dict(zip(fields, record)),
                 "geometry": {"type": _kind(record[-1]), "coordinates": _placed(record[-1])}} for record in records]
    crs = {"type": "name", "properties": {"name": f"urn:ogc:def:crs:EPSG::{EPSG}"}}
    name = os.path.splitext(os.path.basename(path))[0]
    with tempfile.TemporaryDirectory() as folder:
        source = os.path.join(folder, name + ".geojson")
        with open(source, "w") as out:
            json.dump({"type": "FeatureCollection", "crs": crs, "features": features}, out)
        options = ["-of", "ESRI Shapefile", "-lco", "DBF_DATE_LAST_UPDATE=2026-01-01"]
        if path.endswith(".gpkg"):
            options = ["-of", "GPKG", "-lco", "GEOMETRY_NAME=geom", "-lco", "SPATIAL_INDEX=NO"]
        _run("ogr2ogr", *options, "-nln", name, path, source)


def lonlat(place):
    """Degrees east and north of a place, six decimals."""
    text = "%.3f %.3f\n" % (X0 + place[0], Y0 + place[1])
    found = subprocess.run(["gdaltransform", "-s_srs", f"EPSG:{EPSG}", "-t_srs", "EPSG:4326", "-output_xy"], input=text,
                           check=True, capture_output=True, text=True).stdout.split()
    return [round(float(value), 6) for value in found]
