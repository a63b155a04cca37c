"""A CSV table of each kind, for the tests of the import."""

from typing import Final

FLAT: Final = " ".join(["0.2"] * 31)

TABLES: Final = {
    "pigments": (
        "ci_name,common_name,evidence,source,ci_number,chemical_class,note,looked_up",
        "pr 998,tide red,owner,harbour notes,12345,an azo,seen once,",
        "PG999,weed green,Memory,from memory,,,,the harbour's list: no entry found",
    ),
    "lightfastness": (
        "ci_name,scale,rating,medium,source,evidence,year,note",
        "PR998,astm d4303,ii,Watercolour,harbour notes,owner,2024,south window",
        "PR998,blue wool,5-6,oil,harbour notes,owner,,",
        "PR998,words,Fugitive,watercolour,harbour notes,owner,,called fugitive",
    ),
    "h_statements": (
        "code,hazard_class,wording,source",
        "H998,Slippery,Slippery when wet.,harbour notes",
        "EUH998,other,Smells of low tide.,harbour notes",
    ),
    "hazards": (
        "ci_name,agent,summary,basis,evidence,source,cas,h_codes,basis_detail,routes,metals,listed,use",
        ("PR998,weed,Keep it off food.,notified,owner,harbour notes,1-1-1,H998 EUH998?,an entry,"
        "skin; eyes,copper zinc,IARC 2B; HCIS H998 (group),Never"),
        "PG999,mud,Wash your hands.,none,memory,from memory,,,,,,,",
    ),
    "paints": (
        ("code,maker,name,pigments,form,volume_ml,price,currency,transparency,staining,granulation,"
        "lot,status,low_at_ml,note"),
        ("WR,Hard & Quay,Weed Red,PR998; pg999,half_pan,1.8,5.6,gbp,Semi-Transparent,low,high,W1,"
        "retired,0.4,for buoys"),
        ",Hard & Quay,Ebb Grey,,,,,,,,,,,,",
    ),
    "papers": (
        ("code,maker,name,fibre,weight_gsm,surface,sheet_width_mm,sheet_height_mm,low_at_sheets,"
        "low_at_mm,white_l,white_a,white_b,white_illuminant,white_observer,white_condition,white_method,"
        "white_read_on,white_spectrum_start_nm,white_spectrum_step_nm,white_reflectance,note"),
        ("RR,Tidewrack Mill,Rush Rag,cotton,300,Cold Pressed,560,760,3,900,95,-1,3,,,M1,scanner,"
        "2026-05-04,,,,from the mill"),
        f",Tidewrack Mill,Reed,,,,,,,,,,,,,,,,400,10,{FLAT},",
        ",Tidewrack Mill,Sedge Bare,,,,,,,,,,,,,,,,,,,",
    ),
    "mixes": (
        "recipe,code,name,note,created_on",
        "2 UM + 1 BS,MUD,creek mud,cold,2026-05-04",
        "ultramarine,,,,",
    ),
    "swatches": (
        ("code,mix,recipe,paper,water,layers,application,state,made_on,kept_at,note,target,lab_l,"
        "lab_a,lab_b,illuminant,observer,method,instrument,condition,geometry,backing,sample,"
        "error_de,read_on,reading_note,spectrum_start_nm,spectrum_step_nm,reflectance"),
        ("S7,,1 UM + 1 AC,SR,4,2,glaze,wet,2026-05-04,box 1,thin,#6b7a5e,40,5,-20,D65,10,scanner,"
        "flatbed,M0,45/0,Black,patch 7,2.5,2026-05-05,in a hurry,,,"),
        f"S8,,1 BS,sedge smooth,,,,,2026-05-04,,,,,,,,,,,,,,,,,,400,10,{FLAT}",
        ("S7,,1 AC + 1 UM,SR,4,2,glaze,dry,2026-05-04,box 1,thin,#6b7a5e,42,4,-18,,,,,,,,,,"
        "2026-05-06,,,,"),
        ",,1 BS,SM,,,,,2026-05-04,,,,50,20,30,,,,,,,,,,,,,,",
    ),
    "stock": (
        ("item,container,kind,amount,unit,weight_g,weighed_as,estimated,other,container_kind,"
        "capacity,happened_on,price,currency,lot,note"),
        "CR,,counted,8,,,,,,,,2026-11-25,,,,",
        "sedge rag,SR-3,bought,9,Sheets,,,,,Block,12,2026-05-04,31.5,gbp,R1,by boat",
        "TG,TG-1,bought,1.5,ml,8.5,,,,half pan,1.8,2026-05-04,5.6,,,",
        "TG,TG-2,bought,14,ml,,,,,tube,14,2026-05-04,,,,",
        "TG,TG-2,weighed,,,26.5,full,,,,,2026-05-05,,,,",
        "TG,tg-2,used,3,,,,Yes,,,,2026-05-06,,,,the class",
        ",TG-1,refilled,0.2,ml,,,,TG-2,,,2026-05-06,,,,",
    ),
    "fade_tests": (
        ("code,item,place,started_on,ended_on,paper,note,read_on,covered_l,covered_a,covered_b,"
        "exposed_l,exposed_a,exposed_b,illuminant,observer,blue_wool,reading_note"),
        ("F8,AC,boat shed,2026-05-04,2026-07-04,SR,class strip,2026-06-04,40,50,10,44,46,10,D50,2,"
        "3,clear edge"),
        "F9,MUD,mast head,2026-05-04,,,,,,,,,,,,,,",
    ),
    "data_sheets": (
        "paint,location,dated_on,label_marks,recorded_on",
        "AC,sheets/ac.pdf,2024-03-01,AP seal,2026-05-04",
        "ultramarine,,,CL,",
    ),
}  # fmt: skip
"""A table of each kind: rows that use every column, and one that uses as few as it can."""
